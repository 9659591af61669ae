"""The reader against every list of the corpus, scored field by field."""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Callable
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

import scoring

FILES = sorted(scoring.CORPUS.glob("*.txt"))


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_each_file_is_read_almost_wholly(path: Path) -> None:
    for case in scoring.cases(path):
        result = scoring.score(case)
        total = result.outcomes.total()
        assert result.outcomes["right"] >= 0.8 * total, "\n".join(result.faults)


def test_the_corpus_is_read_as_promised(record_property: Callable[[str, object], None]) -> None:
    outcomes: Counter[str] = Counter()
    faults: list[str] = []
    lists = 0
    for path in FILES:
        for case in scoring.cases(path):
            lists += 1
            result = scoring.score(case)
            outcomes += result.outcomes
            faults += result.faults
    total = outcomes.total()
    right, wrong = outcomes["right"] / total, outcomes["wrong"] / total
    record_property(
        "reading score",
        f"{lists} lists, {total} fields: {right:.2%} right, {wrong:.2%} wrong, "
        f"{outcomes['question']} left as a question, {outcomes['missing']} missing",
    )
    assert right >= 0.98, "\n".join(faults)
    assert wrong < 0.005, "\n".join(faults)


# The least that must be right and the most that may be wrong: what was reached, less a hair. `g_2` of the sixth
# author, `s_2` of the nineteenth and `t_2` of the twentieth are never looked at.
@pytest.mark.parametrize(
    ("author", "batch", "least_right", "most_wrong"),
    [
        ("second_author", "a", 0.99, 0.004),
        ("second_author", "b", 0.99, 0.004),
        ("third_author", "c_1", 0.99, 0.004),
        ("third_author", "c_2", 0.99, 0.004),
        ("fourth_author", "d_1", 0.99, 0.004),
        ("fourth_author", "d_2", 0.99, 0.004),
        ("fifth_author", "e_1", 0.99, 0.004),
        ("fifth_author", "e_2", 0.99, 0.004),
        ("sixth_author", "g_1", 0.997, 0.002),
        ("sixth_author", "g_2", 0.983, 0.008),
        ("eighth_author", "h_1", 0.99, 0.004),
        ("eighth_author", "h_2", 0.99, 0.004),
        ("ninth_author", "i_1", 0.99, 0.008),
        ("ninth_author", "i_2", 0.965, 0.016),
        ("tenth_author", "k_1", 0.98, 0.005),
        ("tenth_author", "k_2", 0.98, 0.01),
        ("eleventh_author", "l_1", 0.99, 0.006),
        ("twelfth_author", "j_1", 0.97, 0.02),
        ("twelfth_author", "j_2", 0.98, 0.01),
        ("thirteenth_author", "m_1", 0.99, 0.004),
        ("fourteenth_author", "n_1", 0.99, 0.004),
        ("fourteenth_author", "n_2", 0.98, 0.009),
        ("fifteenth_author", "o_1", 0.99, 0.004),
        ("fifteenth_author", "o_2", 0.99, 0.006),
        ("sixteenth_author", "p_1", 0.99, 0.004),
        ("sixteenth_author", "p_2", 0.99, 0.004),
        ("eighteenth_author", "r_1", 0.99, 0.004),
        ("eighteenth_author", "r_2", 0.99, 0.004),
        ("nineteenth_author", "s_1", 0.99, 0.004),
        ("nineteenth_author", "s_2", 0.96, 0.006),
        ("twentieth_author", "t_1", 0.99, 0.004),
        ("twentieth_author", "t_2", 0.99, 0.005),
        ("twenty_first_author", "u_1", 0.995, 0.002),
        ("twenty_first_author", "u_2", 0.995, 0.003),
        ("twenty_second_author", "v_1", 0.995, 0.002),
        ("twenty_second_author", "v_2", 0.99, 0.003),
        ("twenty_third_author", "w_1", 0.995, 0.002),
        ("twenty_third_author", "w_2", 0.99, 0.003),
        ("twenty_fourth_author", "x_1", 0.995, 0.002),
        ("twenty_fourth_author", "x_2", 0.985, 0.004),
        ("twenty_fifth_author", "y_1", 0.995, 0.002),
        ("twenty_fifth_author", "y_2", 0.99, 0.002),
        ("twenty_sixth_author", "z_1", 0.995, 0.002),
        ("twenty_sixth_author", "z_2", 0.995, 0.002),
        ("twenty_seventh_author", "aa_1", 0.995, 0.003),
        ("twenty_seventh_author", "aa_2", 0.97, 0.02),
        ("twenty_eighth_author", "ab_1", 0.995, 0.002),
        ("twenty_eighth_author", "ab_2", 0.98, 0.013),
        ("twenty_ninth_author", "ac_1", 0.995, 0.002),
        ("twenty_ninth_author", "ac_2", 0.945, 0.017),
        ("thirtieth_author", "ad_1", 0.99, 0.004),
        ("thirtieth_author", "ad_2", 0.993, 0.002),
        ("thirty_first_author", "ae_1", 0.987, 0.007),
        ("thirty_first_author", "ae_2", 0.994, 0.004),
        ("thirty_second_author", "af_1", 0.972, 0.015),
        ("thirty_second_author", "af_2", 0.907, 0.049),
        ("thirty_third_author", "ag_1", 0.955, 0.015),
        ("thirty_third_author", "ag_2", 0.977, 0.006),
        ("thirty_fourth_author", "ah_1", 0.997, 0.002),
        ("thirty_fourth_author", "ah_2", 0.997, 0.002),
        ("thirty_fifth_author", "ai_1", 0.992, 0.002),
        ("thirty_fifth_author", "ai_2", 0.994, 0.005),
        ("thirty_sixth_author", "aj_1", 0.995, 0.002),
        ("thirty_sixth_author", "aj_2", 0.976, 0.002),
        ("thirty_seventh_author", "ak_1", 0.994, 0.002),
        ("thirty_seventh_author", "ak_2", 0.983, 0.002),
        ("thirty_eighth_author", "al_1", 0.99, 0.002),
        ("thirty_eighth_author", "al_2", 0.941, 0.006),
        ("thirty_ninth_author", "am_1", 0.997, 0.002),
        ("thirty_ninth_author", "am_2", 0.992, 0.002),
        ("fortieth_author", "an_1", 0.995, 0.002),
        ("fortieth_author", "an_2", 0.997, 0.002),
        ("forty_first_author", "ao_1", 0.994, 0.004),
        ("forty_first_author", "ao_2", 0.978, 0.006),
        ("forty_second_author", "ap_1", 0.988, 0.007),
        ("forty_second_author", "ap_2", 0.985, 0.006),
        ("forty_third_author", "aq_1", 0.988, 0.002),
        ("forty_third_author", "aq_2", 0.994, 0.002),
        ("forty_fourth_author", "ar_1", 0.997, 0.002),
        ("forty_fourth_author", "ar_2", 0.995, 0.004),
        ("forty_fifth_author", "as_1", 0.982, 0.008),
        ("forty_fifth_author", "as_2", 0.986, 0.009),
        ("forty_sixth_author", "at_1", 0.994, 0.004),
        ("forty_sixth_author", "at_2", 0.997, 0.002),
        ("forty_seventh_author", "au_1", 0.986, 0.006),
        ("forty_seventh_author", "au_2", 0.994, 0.005),
        ("forty_eighth_author", "av_1", 0.958, 0.009),
        ("forty_eighth_author", "av_2", 0.953, 0.036),
        ("forty_ninth_author", "aw_1", 0.986, 0.009),
        ("forty_ninth_author", "aw_2", 0.993, 0.002),
        ("fiftieth_author", "ax_1", 0.993, 0.005),
        ("fiftieth_author", "ax_2", 0.979, 0.005),
        ("fifty_first_author", "ay_1", 0.997, 0.002),
        ("fifty_first_author", "ay_2", 0.989, 0.008),
        ("fifty_second_author", "az_1", 0.995, 0.002),
        ("fifty_second_author", "az_2", 0.991, 0.005),
        ("fifty_third_author", "ba_1", 0.991, 0.007),
        ("fifty_third_author", "ba_2", 0.991, 0.002),
        ("fifty_fourth_author", "bb_1", 0.836, 0.067),
        ("fifty_fourth_author", "bb_2", 0.917, 0.043),
        ("fifty_fifth_author", "bc_1", 0.981, 0.002),
        ("fifty_fifth_author", "bc_2", 0.918, 0.038),
        ("fifty_sixth_author", "bd_1", 0.982, 0.01),
        ("fifty_sixth_author", "bd_2", 0.995, 0.002),
        ("fifty_seventh_author", "be_1", 0.967, 0.008),
        ("fifty_seventh_author", "be_2", 0.963, 0.022),
        ("fifty_eighth_author", "bf_1", 0.986, 0.004),
        ("fifty_eighth_author", "bf_2", 0.95, 0.03),
        ("fifty_ninth_author", "bg_1", 0.993, 0.005),
        ("fifty_ninth_author", "bg_2", 0.991, 0.003),
        ("sixtieth_author", "bh_1", 0.94, 0.02),
        ("sixtieth_author", "bh_2", 0.923, 0.037),
        ("sixty_first_author", "bi_1", 0.951, 0.03),
        ("sixty_first_author", "bi_2", 0.933, 0.031),
        ("sixty_second_author", "bj_1", 0.968, 0.021),
        ("sixty_second_author", "bj_2", 0.918, 0.032),
        ("sixty_third_author", "bk_1", 0.978, 0.009),
        ("sixty_third_author", "bk_2", 0.955, 0.024),
        ("sixty_fourth_author", "bl_1", 0.957, 0.013),
        ("sixty_fourth_author", "bl_2", 0.983, 0.006),
        ("sixty_fifth_author", "bm_1", 0.989, 0.004),
        ("sixty_fifth_author", "bm_2", 0.966, 0.015),
        ("sixty_sixth_author", "bn_1", 0.95, 0.015),
        ("sixty_sixth_author", "bn_2", 0.966, 0.028),
        ("sixty_seventh_author", "bo_1", 0.995, 0.001),
        ("sixty_seventh_author", "bo_2", 0.994, 0.003),
        ("sixty_eighth_author", "bp_1", 0.99, 0.005),
        ("sixty_eighth_author", "bp_2", 0.99, 0.003),
        ("sixty_ninth_author", "bq_1", 0.986, 0.008),
        ("sixty_ninth_author", "bq_2", 0.995, 0.001),
        ("seventieth_author", "br_1", 0.991, 0.004),
        ("seventieth_author", "br_2", 0.993, 0.003),
        ("seventy_first_author", "bs_1", 0.991, 0.001),
        ("seventy_first_author", "bs_2", 0.983, 0.005),
        ("seventy_second_author", "bt_1", 0.963, 0.023),
        ("seventy_second_author", "bt_2", 0.971, 0.022),
        ("seventy_third_author", "bu_1", 0.994, 0.001),
        ("seventy_third_author", "bu_2", 0.99, 0.001),
        ("seventy_fourth_author", "bv_1", 0.973, 0.011),
        ("seventy_fourth_author", "bv_2", 0.98, 0.008),
        ("seventy_fifth_author", "bw_1", 0.975, 0.009),
        ("seventy_fifth_author", "bw_2", 0.988, 0.003),
        ("seventy_seventh_author", "by_1", 0.977, 0.003),
        ("seventy_seventh_author", "by_2", 0.993, 0.002),
        ("seventy_eighth_author", "bz_1", 0.954, 0.019),
        ("seventy_eighth_author", "bz_2", 0.96, 0.018),
        ("seventy_ninth_author", "ca_1", 0.996, 0.002),
        ("seventy_ninth_author", "ca_2", 0.995, 0.002),
        ("eightieth_author", "cb_1", 0.918, 0.037),
        ("eightieth_author", "cb_2", 0.889, 0.038),
        ("eighty_first_author", "cc_1", 0.962, 0.021),
        ("eighty_first_author", "cc_2", 0.977, 0.009),
        ("eighty_second_author", "cd_1", 0.937, 0.02),
        ("eighty_second_author", "cd_2", 0.887, 0.054),
        ("eighty_fourth_author", "ce_1", 0.997, 0.001),
        ("eighty_fourth_author", "ce_2", 0.998, 0.001),
        ("eighty_fifth_author", "cf_1", 0.991, 0.001),
        ("eighty_fifth_author", "cf_2", 0.998, 0.001),
        ("eighty_sixth_author", "cg_1", 0.993, 0.004),
        ("eighty_sixth_author", "cg_2", 0.997, 0.001),
        ("eighty_seventh_author", "ch_1", 0.995, 0.002),
        ("eighty_seventh_author", "ch_2", 0.992, 0.002),
        ("eighty_eighth_author", "ci_1", 0.992, 0.003),
        ("eighty_eighth_author", "ci_2", 0.964, 0.026),
        ("eighty_ninth_author", "cj_1", 0.967, 0.014),
        ("eighty_ninth_author", "cj_2", 0.988, 0.004),
        ("ninetieth_author", "ck_1", 0.995, 0.001),
        ("ninetieth_author", "ck_2", 0.995, 0.001),
        ("ninety_first_author", "cl_1", 0.978, 0.014),
        ("ninety_first_author", "cl_2", 0.948, 0.019),
        ("ninety_second_author", "cm_1", 0.979, 0.011),
        ("ninety_second_author", "cm_2", 0.968, 0.007),
        ("ninety_third_author", "cn_1", 0.979, 0.005),
        ("ninety_third_author", "cn_2", 0.976, 0.002),
        ("ninety_fourth_author", "dn_1", 0.990, 0.004),
        ("ninety_fourth_author", "dn_2", 0.981, 0.004),
        ("ninety_fifth_author", "do_1", 0.999, 0.001),
        ("ninety_fifth_author", "do_2", 0.999, 0.001),
        ("ninety_sixth_author", "dp_1", 0.999, 0.001),
        ("ninety_sixth_author", "dp_2", 0.999, 0.001),
        ("ninety_seventh_author", "dq_1", 0.992, 0.004),
        ("ninety_seventh_author", "dq_2", 0.991, 0.005),
        ("ninety_eighth_author", "dr_1", 0.992, 0.002),
        ("ninety_eighth_author", "dr_2", 0.997, 0.001),
        ("ninety_ninth_author", "ds_1", 0.998, 0.001),
        ("ninety_ninth_author", "ds_2", 0.998, 0.002),
        ("one_hundredth_author", "dt_1", 0.995, 0.003),
        ("one_hundredth_author", "dt_2", 0.992, 0.002),
        ("one_hundred_first_author", "du_1", 0.990, 0.007),
        ("one_hundred_first_author", "du_2", 0.979, 0.012),
        ("one_hundred_second_author", "dv_1", 0.979, 0.006),
        ("one_hundred_second_author", "dv_2", 0.990, 0.005),
        ("one_hundred_third_author", "dw_1", 0.989, 0.004),
        ("one_hundred_third_author", "dw_2", 0.984, 0.006),
    ],
)
def test_lists_by_somebody_else(
    author: str, batch: str, least_right: float, most_wrong: float, record_property: Callable[[str, object], None]
) -> None:
    outcomes: Counter[str] = Counter()
    for path in sorted((Path(__file__).parent / author).glob(f"{batch}_*.txt")):
        for case in scoring.cases(path):
            outcomes += scoring.score(case).outcomes
    total = outcomes.total()
    right, wrong = outcomes["right"] / total, outcomes["wrong"] / total
    article = "an" if author[0] == "e" else "a"
    whose = f"{article} {author.replace('_author', '').replace('_', '-')} author's {batch}"
    record_property("reading score", f"{whose}: {total} fields, {right:.2%} right, {wrong:.2%} wrong")
    assert right >= least_right
    assert wrong <= most_wrong


def test_the_scorer_sees_what_is_wrong_missing_and_too_much() -> None:
    text = "driver Kittiwake 10.5, 45 inches\n3 wood Gannet 15\n"
    expected = "driver: head=Kittiwake loft=9 len=45 flex=S\n"
    case = scoring._case("scorer", text, expected)
    outcomes = scoring.score(case).outcomes
    assert outcomes["right"] == 4  # kind, head, length, the assumed hand
    assert outcomes["missing"] == 1  # the flex
    assert outcomes["wrong"] >= 2  # the loft, and a club that is not expected
