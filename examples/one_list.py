"""One list from the first word to a finding, in Python: read, work out, ask why, judge.

Run it with `python examples/one_list.py`.
"""

import asplayed
from asplayed.clubs import played_set
from asplayed.quantities import chain

WORDS = """\
Driver 10.5, sleeve +1, 65 g stiff, 44 3/4
7 iron 34, 120 g stiff, 1 up
Gap wedge 50.08
Sand wedge 54.10 bent 2 weak
Putter 34, face balanced
"""

golf_set = played_set(asplayed.read(WORDS))
for club in golf_set.clubs:
    loft, length = club.as_played.loft, club.as_played.length
    print(f"{club.club:12} {loft.value:5.2f}° ({loft.source.value}), {length.value:.2f} in ({length.source.value})")

print("\nWhy is the sand wedge's bounce what it is?")
wedge = next(club for club in golf_set.clubs if club.club == "sand wedge")
for depth, name, figure in chain(wedge.as_played.bounce, "bounce"):
    print(f"{'  ' * depth}{name}: {figure.value:g} {figure.unit}, {figure.source.value}: {figure.why or 'as said'}")

print("\nWhat a fitter would say:")
for finding in asplayed.judge(golf_set):
    print(f"- {finding.level}: {finding.sentence}")
