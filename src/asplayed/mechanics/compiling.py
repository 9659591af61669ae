"""The compiler, numba, brought in without the look for a linear algebra library that it takes as it starts.

That look loads much of SciPy, a third of the time a first call takes. SciPy is installed with this package, so the
answer is known, and where a compiled function does multiply matrices numba looks again.
"""

from __future__ import annotations

import numba
from numba.np import linalg

__all__ = ["numba"]

_look = linalg.ensure_blas
linalg.ensure_blas = lambda: None
try:
    from numba.np import arraymath  # noqa: F401
finally:
    linalg.ensure_blas = _look
