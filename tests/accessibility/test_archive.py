"""Every edition of every demo is PDF/A-2a (ISO 19005-2:2011), and spoilt ones are caught.

The judge is the reference rules' engine, which is none of ours. Each fault below is put into one of
our own files and must be found with its clause, or a clean result would mean nothing.
"""

import io
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pikepdf
import pytest
from pikepdf import Dictionary, Name
from PIL import ImageCms

from tests.accessibility import builds, machine, reference_rules

needs_java = machine.needs("java")
each_edition = pytest.mark.parametrize(("demo", "edition"), builds.EDITIONS)

RULES = 153
"""Machine-checkable rules of PDF/A-2a, as the engine's profile lists them."""


def without(name: str) -> Callable[[pikepdf.Pdf], None]:
    """A fault: one name is missing among what the file says about itself."""

    def spoil(pdf: pikepdf.Pdf) -> None:
        with pdf.open_metadata(set_pikepdf_as_editor=False, update_docinfo=False) as about:
            del about[name]

    return spoil


def undescribed(pdf: pikepdf.Pdf) -> None:
    """The packet no longer says what its own names are."""
    packet = pdf.Root.Metadata.read_bytes()
    start = packet.index(b"<rdf:Description", packet.index(b"pdfaid:conformance"))
    end = packet.index(b"</rdf:Description>", start) + len(b"</rdf:Description>")
    pdf.Root.Metadata.write(packet[:start] + packet[end:])


def see_through(pdf: pikepdf.Pdf) -> None:
    """A page is painted with transparency that names a blend nobody knows."""
    state = Dictionary(Type=Name.ExtGState, BM=Name.Glow)
    page = pdf.pages[0]
    page.obj.Resources.ExtGState = Dictionary(Faint=state)
    page.contents_add(b"/Faint gs")


def scripted(pdf: pikepdf.Pdf) -> None:
    """The file runs a program when it is opened."""
    pdf.Root.OpenAction = Dictionary(S=Name.JavaScript, JS=pikepdf.String("beep()"))


def embedded(pdf: pikepdf.Pdf) -> None:
    """A font is left out."""
    for font in pdf.pages[0].Resources.Font.values():
        del font.FontDescriptor["/FontFile2"]


FAULTS: dict[str, tuple[Callable[[pikepdf.Pdf], object], str]] = {
    "no output intent": (lambda pdf: pdf.Root.__delitem__("/OutputIntents"), "6.2.4.3"),
    "no identifier": (without("pdfaid:part"), "6.6.4"),
    "no level": (without("pdfaid:conformance"), "6.6.4"),
    "names without a description": (undescribed, "6.6.2.3.1"),
    "a blend nobody knows": (see_through, "6.2.10"),
    "a program": (scripted, "6.5.1"),
    "a font left out": (embedded, "6.2.11.4.1"),
    "no tags": (lambda pdf: pdf.Root.__delitem__("/StructTreeRoot"), "6.7.3.3"),
    "not marked": (lambda pdf: pdf.Root.__delitem__("/MarkInfo"), "6.7.2.2"),
}


@pytest.fixture(scope="session")
def judged(
    saved: Callable[[str, str], Path], tmp_path_factory: pytest.TempPathFactory
) -> dict[str, dict[str, Any]]:
    """What the rules say of every edition and every spoilt file, by file name."""
    folder = tmp_path_factory.mktemp("archive")
    source = saved("ropewalk-hat", "print-saver")
    spoilt = []
    for number, (spoil, _) in enumerate(FAULTS.values()):
        path = folder / f"fault-{number}.pdf"
        with pikepdf.open(source) as pdf:
            spoil(pdf)
            pdf.save(path)
        spoilt.append(path)
    good = [saved(demo, edition) for demo, edition in builds.EDITIONS]
    return reference_rules.reports([*good, *spoilt], "PDFA_2_A")


@needs_java
@each_edition
def test_reference_rules_find_nothing(
    demo: str,
    edition: str,
    saved: Callable[[str, str], Path],
    judged: dict[str, dict[str, Any]],
) -> None:
    report = judged[saved(demo, edition).name]
    assert report["failed"] == []
    assert report["compliant"]
    assert report["rules"] == RULES


@needs_java
@pytest.mark.parametrize("fault", FAULTS)
def test_reference_rules_find_the_fault(fault: str, judged: dict[str, dict[str, Any]]) -> None:
    report = judged[f"fault-{list(FAULTS).index(fault)}.pdf"]
    assert not report["compliant"]
    clauses = {one["rule"].rpartition("-")[0] for one in report["failed"]}
    assert FAULTS[fault][1] in clauses


def test_profile_of_colours_is_that_of_a_colour_library() -> None:
    """The profile in the file is sRGB (IEC 61966-2-1) as Little CMS has it, but for its day."""
    made = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    with pikepdf.open(io.BytesIO(builds.pdf("ropewalk-hat"))) as pdf:
        kept = pdf.Root.OutputIntents[0].DestOutputProfile.read_bytes()
    day = slice(24, 36)  # of a profile's header (ICC.1:2022, table 17)
    assert kept[: day.start] + made[day] + kept[day.stop :] == made


@pytest.mark.parametrize("demo", builds.DEMOS)
def test_no_two_editions_have_the_same_title(demo: str) -> None:
    titles = []
    for edition in builds.made(demo):
        with pikepdf.open(io.BytesIO(builds.pdf(demo, edition))) as pdf:
            titles.append(str(pdf.docinfo["/Title"]))
            with pdf.open_metadata() as about:
                assert about["dc:title"] == titles[-1]
    assert len(set(titles)) == len(titles)
