"""The workshop: orders a builder can cut from, and the built clubs checked against them."""

from asplayed.workshop.orders import order
from asplayed.workshop.records import Bench, Check, CheckedFigure, ClubOrder, Order, PartNeeded, Reading, Step

__all__ = ["Bench", "Check", "CheckedFigure", "ClubOrder", "Order", "PartNeeded", "Reading", "Step", "order"]
