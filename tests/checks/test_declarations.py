"""Every finding of the program is declared: in the catalogue of checks or the list of proofs."""

import importlib
import pkgutil
import re

import pytest

import bindoff.checks
from bindoff.checks.allchecks import CHECKS
from bindoff.checks.engine import Check, check, together
from bindoff.checks.listing import as_data, as_text
from bindoff.checks.proofs import PROOFS, Proof
from bindoff.diagnostics import Severity
from tests.checks.diagnostic_ids import ids_used


def test_every_id_that_a_stage_raises_is_declared() -> None:
    declared = {proof.id for proof in PROOFS}

    assert {id: place for id, place in ids_used().items() if id not in declared} == {}


def test_every_declared_proof_is_raised_somewhere() -> None:
    used = ids_used()

    assert [proof.id for proof in PROOFS if proof.id not in used] == []


def test_no_id_is_declared_twice() -> None:
    ids = [*(check.id for check in CHECKS), *(proof.id for proof in PROOFS)]

    assert len(ids) == len(set(ids))


def test_ids_are_an_area_a_point_and_the_slip() -> None:
    ids = [*(check.id for check in CHECKS), *(proof.id for proof in PROOFS), *ids_used()]

    assert [id for id in ids if not re.fullmatch(r"[a-z]+\.[a-z]+(-[a-z]+)*", id)] == []


def test_every_check_of_every_module_is_in_the_catalogue() -> None:
    made = {
        value.id
        for module in pkgutil.walk_packages(bindoff.checks.__path__, "bindoff.checks.")
        for value in vars(importlib.import_module(module.name)).values()
        if isinstance(value, Check)
    }

    assert made == {each.id for each in CHECKS}


def test_a_check_without_a_text_fails_as_it_is_made() -> None:
    with pytest.raises(ValueError, match="lacks why"):
        check(
            id="yarn.itchy",
            title="No yarn itches",
            looks_at="yarns",
            why="",
            severity=Severity.NOTE,
            remedy="Choose another",
        )(lambda context: iter(()))


def test_two_checks_of_one_name_fail_as_they_are_put_together() -> None:
    with pytest.raises(ValueError, match=r"two checks are called float\.long"):
        together(CHECKS, [each for each in CHECKS if each.id == "float.long"])


def test_a_proof_without_a_reason_fails_as_it_is_made() -> None:
    with pytest.raises(ValueError, match="not described"):
        Proof("row.odd", "Plan", "rows are even", "")


def test_the_list_shows_every_check_and_proof_with_its_reason() -> None:
    listed = " ".join(as_text(CHECKS, PROOFS).split())

    for each in CHECKS:
        assert f"{each.id} ({each.severity}): {each.title}" in listed
        assert " ".join(each.why.split()) in listed
    for proof in PROOFS:
        assert f"{proof.id}: {' '.join(proof.holds.split())}" in listed


def test_the_list_as_data_has_the_same_entries() -> None:
    data = as_data(CHECKS, PROOFS)

    assert [entry["id"] for entry in data["checks"]] == [each.id for each in CHECKS]
    assert [entry["id"] for entry in data["always on"]] == [proof.id for proof in PROOFS]
    assert all(all(entry.values()) for entries in data.values() for entry in entries)


@pytest.mark.parametrize("each", CHECKS, ids=lambda each: each.id)
def test_texts_keep_to_the_house_style(each: Check) -> None:
    """Titles and remedies start with a capital, reasons small; none ends in a full stop."""
    assert each.title[0].isupper()
    assert each.remedy[0].isupper()
    assert each.why[0].islower()
    assert not any(
        text.endswith(".") for text in (each.title, each.looks_at, each.why, each.remedy)
    )
