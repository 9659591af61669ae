"""What is wrong or unusual with a set, and what the rules say of the figures entered."""

from asplayed.judgement.findings import LEVELS, Finding, Level
from asplayed.judgement.judge import judge, judge_played
from asplayed.judgement.rules import Verdict, check

__all__ = ["LEVELS", "Finding", "Level", "Verdict", "check", "judge", "judge_played"]
