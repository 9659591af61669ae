"""What is wrong or unusual with a set, and what the rules say of the figures entered."""

from asplayed.judgement.rules import Verdict, check

__all__ = ["Verdict", "check"]
