"""Every caution has a source or says that it has none; none that the trade expects is missing."""

import pytest

from estimator.cautions import CONDITIONS, STAGES, cautions

EXPECTED = {
    # the usual ones
    "manual first", "trained people", "upright", "rested", "screws backed off", "fuel part turn", "oxygen fully",
    "arrestors", "leak test", "no oil", "fifteen psi", "fire watch", "coatings", "closed containers", "ventilation",
    "eye shade", "shut down", "apart in store",
    # those that a shop misses on such lists
    "backfire", "flashback", "hot cylinder", "sealed parts", "nothing left inside", "piece falls", "propane outfit",
    "hard steel", "purge", "closed van", "lever down", "acetylene manifold", "critical parts",
}  # fmt: skip


@pytest.mark.parametrize("caution", cautions(), ids=lambda caution: caution.key)
def test_no_caution_lacks_a_source_or_the_words_that_it_has_none(caution) -> None:
    provenance = caution.provenance
    if provenance.status == "common practice, no source":
        assert [source.id for source in provenance.sources] == ["COMMON"]
        assert caution.source == "common practice, no source"
    else:
        assert any(source.id not in {"COMMON", "JUDGE"} for source in provenance.sources)
        assert provenance.locator
        assert provenance.status in caution.source


@pytest.mark.parametrize("caution", cautions(), ids=lambda caution: caution.key)
def test_a_caution_can_be_read_at_arm_s_length(caution) -> None:
    assert caution.stage in STAGES
    assert caution.applies_to in {"all", *CONDITIONS}
    assert caution.text[0].isupper()
    assert caution.text.endswith(".")
    assert len(caution.text) <= 180


def test_the_expected_cautions_are_there_once_each() -> None:
    keys = [caution.key for caution in cautions()]
    assert len(set(keys)) == len(keys)
    assert set(keys) >= EXPECTED


def test_only_what_applies_is_shown_and_what_is_for_everyone_always() -> None:
    plain = {caution.key for caution in cautions([])}
    assert "manual first" in plain
    assert not plain & {"fifteen psi", "propane outfit", "piece falls"}
    assert {caution.key for caution in cautions(["acetylene"])} - plain == {
        "rested",
        "fuel part turn",
        "acetylene manifold",
        "no copper",
        "fifteen psi",
        "draw limit",
        "hot cylinder",
    }
    assert len(cautions(CONDITIONS)) == len(cautions())


def test_every_condition_and_every_stage_has_a_caution() -> None:
    assert {caution.applies_to for caution in cautions()} == {"all", *CONDITIONS}
    assert list(dict.fromkeys(caution.stage for caution in cautions())) == list(STAGES)


def test_an_unknown_condition_is_refused_with_the_known_ones() -> None:
    with pytest.raises(ValueError, match=r"conditions must be among acetylene, .*got \['argon'\]"):
        cautions(["argon"])


def test_where_sources_disagree_the_stricter_is_printed_and_both_are_shown() -> None:
    rested = next(caution for caution in cautions() if caution.key == "rested")
    assert "two hours" in rested.text
    assert rested.provenance.locator == "2 h; at least 30 min"
    watch = next(caution for caution in cautions() if caution.key == "fire watch")
    assert "60 minutes" in watch.text
    assert "30 min" in watch.provenance.locator
