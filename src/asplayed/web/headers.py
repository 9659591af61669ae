"""The headers that every answer carries, whatever it is: set in this one place."""

from __future__ import annotations

POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self' data:",
        "font-src 'self'",
        "connect-src 'self'",
        "manifest-src 'self'",
        "form-action 'self'",
        "frame-ancestors 'none'",
        "base-uri 'none'",
        "require-trusted-types-for 'script'",
        "trusted-types asplayed",
    )
)
"""Nothing from elsewhere, and no script or style that stands in a page itself."""

SECURITY = (
    ("content-security-policy", POLICY),
    ("x-content-type-options", "nosniff"),
    ("x-frame-options", "DENY"),
    ("referrer-policy", "same-origin"),
    ("cross-origin-opener-policy", "same-origin"),
    ("cross-origin-resource-policy", "same-origin"),
    ("permissions-policy", "camera=(), geolocation=(), microphone=(), payment=(), usb=()"),
)
TRANSPORT = ("strict-transport-security", "max-age=31536000")


def guarded(headers: list[tuple[bytes, bytes]], *, secure: bool) -> list[tuple[bytes, bytes]]:
    """An answer's headers with those that guard it; what is not said to be cacheable is not kept anywhere.

    >>> dict(guarded([], secure=False))[b"cache-control"]
    b'no-store'
    """
    set_already = {name.lower() for name, _ in headers}
    added = [*SECURITY, *([TRANSPORT] if secure else ()), ("cache-control", "no-store")]
    return headers + [(name.encode(), value.encode()) for name, value in added if name.encode() not in set_already]
