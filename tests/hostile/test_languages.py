"""Patterns in the alphabets of Europe: real glyphs and letters, and the language they claim."""

import io
import re
import unicodedata
from collections.abc import Mapping

import pikepdf
import pypdf
import pytest
from PIL import Image

from bindoff.diagnostics import PatternError
from bindoff.files import MemoryFiles
from bindoff.pipeline import build_pattern, check_pattern
from tests.small_patterns import CAP, WAVES, changed, faults_of

# Words with every letter beyond a to z of their alphabet, from memory.
WORDS: Mapping[str, tuple[str, ...]] = {
    "pl": ("Żółta czapka", "Zażółć gęślą jaźń", "Łupkowy błękit", "Średnia", "Obwód głowy"),
    "cs": ("Žlutá čepice", "Příliš žluťoučký kůň úpěl", "Ďábelské ódy", "Střední", "Obvod"),
    "hu": ("Tűzpiros sapka", "Árvíztűrő tükörfúrógép", "Őszi köd", "Közepes", "Kerület"),
    "ro": ("Căciulă țărănească", "Și totuși întâi", "Pâclă", "Mijlocie", "Circumferință"),
    "el": ("Σκούφος του λιμανιού", "Ξεσκεπάζω την ψυχοφθόρα", "Αφρός ΐΰ", "Μεσαίο", "Περίμετρος"),
    "ru": ("Шапка «Чайка»", "Съешь ещё этих мягких булок, щёголь", "Пена", "Средний", "Обхват"),
    "uk": ("Ґанок і їжак", "Щастя, є, їхній", "Піна", "Середній", "Обхват голови"),
    "sr": ("Љубичаста капа", "Ђак, ћурка, њива, џеп", "Пена", "Средња", "Обим главе"),
}


def pattern(language: str) -> MemoryFiles:
    title, words, yarn, size, measure = WORDS[language]
    text = changed(
        CAP,
        ("title: Quay Cap", f"title: {title}\nlanguage: {language}"),
        ("A plain cap", f"{words}, a cap"),
        ("name: Foam", f"name: {yarn}"),
        ("  M: {", f"  {size}: {{"),
        ("Circumference:", f"{measure}:"),
        ("title: Waves", f"title: {words}"),
        ("Low light waves", f"{words}, light waves"),
        ("      - gather: all", f"      - gather: all\n        note: {words}."),
    )
    text += f'photos:\n  - {{file: cap.png, alt: "{words}.", caption: "{title}"}}\n'
    care = f"# {words}\n\n{words} **{words}** *{words}*.\n"
    return MemoryFiles(
        {
            "pattern.yaml": text,
            "waves.grid": WAVES,
            "templates/notes/care.md": care,
            "cap.png": _photo(),
        }
    )


def _photo() -> bytes:
    drawn = io.BytesIO()
    Image.new("RGB", (1200, 900), "#335577").save(drawn, "PNG")
    return drawn.getvalue()


@pytest.fixture(scope="module", params=WORDS)
def built(request: pytest.FixtureRequest) -> tuple[str, Mapping[str, bytes]]:
    language = str(request.param)
    return language, build_pattern(pattern(language), "pattern.yaml", "cap").files


def one_line(text: str) -> str:
    return re.sub(r"\s+", " ", unicodedata.normalize("NFC", text))


def test_every_word_can_be_found_in_the_pdf_and_the_text(
    built: tuple[str, Mapping[str, bytes]],
) -> None:
    language, files = built
    pages = pypdf.PdfReader(io.BytesIO(files["cap.pdf"])).pages
    said = one_line(" ".join(page.extract_text() for page in pages))
    told = one_line(files["cap.txt"].decode())

    for words in WORDS[language]:
        assert words in said, words
        assert words in told, words


def test_every_glyph_is_one_of_its_own(built: tuple[str, Mapping[str, bytes]]) -> None:
    """No sign is drawn as the box for missing ones, which is glyph 0 (OpenType, ``glyf``)."""
    from fontTools.ttLib import TTFont

    _, files = built
    letters: set[str] = set()
    with pikepdf.open(io.BytesIO(files["cap.pdf"])) as pdf:
        fonts = {
            str(font.FontDescriptor.FontName): font
            for page in pdf.pages
            for font in page.Resources.Font.values()
        }
        for font in fonts.values():
            drawn = TTFont(io.BytesIO(font.FontDescriptor.FontFile2.read_bytes()))
            cmap = re.findall(r"<(\w\w)> <(\w{4})>", font.ToUnicode.read_bytes().decode("ascii"))
            shapes = drawn["glyf"]
            codes = drawn["cmap"].tables[0].cmap
            box = shapes[drawn.getGlyphOrder()[0]]
            for code, point in cmap:
                sign = chr(int(point, 16))
                glyph = shapes[codes[int(code, 16)]]
                if not sign.isspace():
                    assert glyph.numberOfContours != 0, sign
                    assert glyph != box, sign
                    letters.add(sign)
    assert len([sign for sign in letters if sign.isalpha() and not sign.isascii()]) >= 5


def test_the_language_is_said_in_every_file(built: tuple[str, Mapping[str, bytes]]) -> None:
    """ISO 32000-1, 14.9.2, and SVG 1.1, 5.10: ``Lang`` and ``xml:lang``; WCAG 2.2, 3.1.2.

    The sentences of the program are English; the designer's own are marked as hers.
    """
    language, files = built
    with pikepdf.open(io.BytesIO(files["cap.pdf"])) as pdf:
        assert str(pdf.Root.Lang) == "en-US"
        with pdf.open_metadata() as about:
            assert list(about["dc:language"]) == ["en-US"]
        marked = [each for each in pdf.objects if isinstance(each, pikepdf.Dictionary)]
        tags = [each for each in marked if each.get("/Type") == "/StructElem" and "/Lang" in each]
        assert {str(each.Lang) for each in tags} == {language}
        assert {str(each.S) for each in tags} >= {
            "/H1",
            "/P",
            "/H2",
            "/Figure",
            "/Caption",
            "/Span",
        }
    assert f'xml:lang="{language}"' in files["charts/waves.svg"].decode().split(">")[1]


@pytest.mark.parametrize("tag", ["Polish", "p", "en_GB", "en-", "x-own", "deutsch", "e1"])
def test_a_language_that_is_no_tag_is_refused(tag: str) -> None:
    """RFC 5646, section 2.1: two or three letters, then script, region and variants."""
    (found,) = faults_of(changed(CAP, ("title: Quay Cap", f"title: Quay Cap\nlanguage: {tag}")))

    assert found.id == "source.value"
    assert f"`{tag}`" in found.message
    assert "pl" in found.help
    assert found.span is not None
    assert (found.span.line, found.span.column) == (2, 11)


@pytest.mark.parametrize("tag", ["en-US", "pt-BR", "sr-Latn-RS", "es-419", "gsw", "de-CH-1996"])
def test_tags_are_taken_with_script_region_and_variant(tag: str) -> None:
    """Tags of the examples in RFC 5646, appendix A, and of its registry."""
    assert faults_of(changed(CAP, ("title: Quay Cap", f"title: Quay Cap\nlanguage: {tag}"))) == ()


def test_a_pattern_in_letters_that_no_typeface_has_is_refused_line_for_line() -> None:
    text = changed(
        CAP,
        ("title: Quay Cap", "title: כובע הרציף\nlanguage: he"),
        ("A plain cap with a band of waves.", "帽子です。"),
        ("name: Foam", "name: 泡 🧶"),
    )
    files = MemoryFiles({"pattern.yaml": text, "waves.grid": WAVES})
    found = [
        each for each in check_pattern(files, "pattern.yaml", "cap") if each.id == "font.glyph"
    ]

    assert [each.span and each.span.line for each in found] == [1, 6, 13]
    assert all("no typeface here can print" in each.message for each in found)
    with pytest.raises(PatternError):
        build_pattern(files, "pattern.yaml", "cap")
