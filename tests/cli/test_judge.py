"""`judge`: findings in words and as JSON, and the exit code that a script asked for."""

from __future__ import annotations

import json
from pathlib import Path

import msgspec

from asplayed.clubs import Club, GolfSet, Head, PutterParts, SetFacts
from asplayed.judgement import judge
from asplayed.quantities import figure, plain

from .conftest import Run, ada


def test_the_findings_are_those_of_the_judgement(run: Run, stored: str) -> None:
    judged = run("judge", stored, "--json")
    assert (judged.code, judged.err) == (0, "")
    told = json.loads(judged.out)
    assert told == {"findings": [plain(finding) for finding in judge(ada())]}
    assert "loft-hole" in {finding["code"] for finding in told["findings"]}


def test_every_finding_is_told_with_its_reason_and_its_remedy(run: Run, stored: str) -> None:
    words = " ".join(run("judge", stored).out.split())
    for finding in judge(ada()):
        for part in (finding.sentence, finding.why, finding.remedy, finding.source):
            assert " ".join(part.split()) in words
    assert "No breach found in the figures entered." in words
    assert "conform" not in words.casefold()


def test_fail_leaves_with_1_for_a_flaw_and_with_0_without(run: Run, stored: str, tmp_path: Path) -> None:
    assert run("judge", stored, "--fail").code == 1
    putter = Club(club="putter", kind="putter", head=Head(name="Fulmar"), length=figure(34, "in", "measured"))
    one = msgspec.structs.replace(putter, putter=PutterParts(toe_hang=figure(30, "deg", "measured")))
    (tmp_path / "one.json").write_bytes(msgspec.json.encode(plain(GolfSet(set=SetFacts(hand="left"), clubs=(one,)))))
    judged = run("judge", str(tmp_path / "one.json"), "--fail", "--json")
    assert not {"breach", "flaw"} & {finding["level"] for finding in json.loads(judged.out)["findings"]}
    assert judged.code == 0
