"""The printed order: everything a builder needs stands on it, as text, with nothing of a stranger's read as markup."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest

from asplayed.clubs import Club, GolfSet, Head, SetFacts
from asplayed.intake.changes import read_changes
from asplayed.quantities import figure
from asplayed.telling.order_sheet import order_sheet, target_text, tolerance_text
from asplayed.workshop import Order, Step, order

HOSTILE = '#panic("no") *bold* $x$ <b> \\u{0}'


def ordered() -> Order:
    iron = Club(
        club="7 iron", kind="iron", head=Head(mass=figure(269, "g", "published")), length=figure(37, "in", "stated")
    )
    bag = GolfSet(set=SetFacts(player=HOSTILE), clubs=(iron,))
    return order(
        bag, read_changes([f"7 iron: shaft {HOSTILE.replace(chr(92), '')} S", "7 iron: D2"], bag), set_name="ada"
    )


def text_of(pdf: bytes, folder: Path) -> str:
    if shutil.which("pdftotext") is None:
        pytest.skip("no tool here reads the text of a PDF")
    (folder / "order.pdf").write_bytes(pdf)
    found = subprocess.run(["pdftotext", "-layout", folder / "order.pdf", "-"], capture_output=True, check=True)
    return " ".join(found.stdout.decode().split())


def test_everything_ordered_stands_on_paper_as_text(tmp_path: Path) -> None:
    made = ordered()
    told = text_of(order_sheet(made), tmp_path)
    assert made.order in told
    for step in made.clubs[0].steps:
        if step.operation != "measure":
            assert step.operation in told
        for caution in step.cautions:
            assert " ".join(caution.split()[:4]) in told
    for words in ("Ask and measure first", "Parts", "Checked by", "Labels", "35½ in (35.500 in, 901.7 mm)", "#panic"):
        assert words in told


def test_the_code_opens_the_order_in_the_web_app_where_its_address_is_given() -> None:
    made = ordered()
    plain, web = order_sheet(made), order_sheet(made, web="http://127.0.0.1:8000/")
    assert plain != web
    assert plain == order_sheet(made)


def test_targets_are_told_as_the_bench_reads_them() -> None:
    cure = Step(operation="cure", target=figure(86400, "s", "common practice"))
    assert target_text(cure) == "24 h"
    grip = Step(operation="wraps and grip", target=figure(0.9156, "in", "computed"))
    assert target_text(grip) == "0.916 in (23.3 mm)"
    assert target_text(Step(operation="clean", target=figure("clean", "1", "computed"))) == ""
    assert tolerance_text(None) == ""
    assert tolerance_text(figure(1 / 16, "in", "computed")) == "±1/16 in"
    assert tolerance_text(figure(0.01, "in", "computed")) == "±0.010 in"
