"""Words are parted where the library of the patterns would part them, in every language it has."""

import pyphen
import pytest

from bindoff.render.pdf.hyphens import hyphens, partable

LANGUAGES = sorted({path: name for name, path in pyphen.LANGUAGES.items()}.values())


@pytest.mark.parametrize("language", LANGUAGES)
def test_words_are_parted_as_the_library_does(language: str) -> None:
    """Its words: pairs of the patterns' own letters, so that many patterns meet in each."""
    library = pyphen.Pyphen(lang=language, left=3, right=3)
    letters = [part.strip(".") for part in library.hd.patterns]
    step = max(1, len(letters) // 400)
    pairs = zip(letters[::step], letters[1::step], letters[-1::-step], strict=False)
    words = [word for pair in pairs if partable(word := "".join(pair).lower())]

    assert words or not any(map(str.islower, letters))  # scripts without capitals part no words
    for word in words:
        assert list(hyphens(language)(word)) == library.positions(word), word
