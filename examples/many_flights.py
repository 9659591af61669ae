"""Which loft suits which speed: thousands of drives at once, in Python.

Run it with `python examples/many_flights.py`. Speeds, lofts and attacks are numpy arrays that broadcast; everything is
SI and radians inside, and the longest drive of each row answers.
"""

import numpy as np

from asplayed.mechanics import fly
from asplayed.mechanics.air import air
from asplayed.mechanics.impact import impact

MPH, DEGREE, YARD = 0.44704, np.pi / 180, 0.9144

speeds = np.arange(70, 125, 10)[:, None, None] * MPH
attacks = np.array([-4.0, 0.0, 4.0])[None, :, None] * DEGREE
lofts = np.linspace(8, 24, 161)[None, None, :] * DEGREE  # dynamic: as delivered, the shaft's bend counted

weather = air(temperature=294.26, humidity=0.5, altitude=0.0)
ball = impact(club_speed=speeds, head_mass=0.2, restitution=0.82, attack_angle=attacks, dynamic_loft=lofts)
drives = fly(ball.ball_speed, ball.launch_angle, ball.spin_rate, density=weather.density, viscosity=weather.viscosity)
best = np.argmax(drives.carry, axis=-1)

print("club speed    attack −4°            0°            +4°   (dynamic loft, carry)")
for row, speed in enumerate(speeds[:, 0, 0]):
    cells = [
        f"{lofts[0, 0, best[row, column]] / DEGREE:5.1f}° {drives.carry[row, column, best[row, column]] / YARD:4.0f} yd"
        for column in range(attacks.size)
    ]
    print(f"{speed / MPH:6.0f} mph   " + "   ".join(cells))
print("\nThe slower the swing, the more loft carries farthest; struck upwards, every swing gains, with more loft.")
