"""What the page of the desk may ask, by the name of the request: one function for each.

Each takes the desk and the data of the request, and gives those of the answer; one that may end
otherwise than well gives its status before them. What a request lacks is a ``RefusedError``.
"""

from collections.abc import Callable, Mapping

from bindoff.desk.answers import comments, files, grids, making, pages, reread, source
from bindoff.desk.asking import Answer
from bindoff.desk.state import Desk

ANSWERS: Mapping[str, Callable[[Desk, Answer], Answer | tuple[int, Answer]]] = {
    each.__name__: each
    for each in (
        *(files.patterns, files.begin, files.files, files.since, files.save),
        *(pages.build, pages.tell, pages.compare, pages.why),
        *(source.about, source.complete, source.gauge, source.silence, source.move),
        *(grids.chart, grids.floats, grids.paste),
        comments.comments,
        reread.reread,
        *(making.make, making.progress, making.show),
    )
}

FILES: Mapping[str, Callable[[Desk, str, str], tuple[bytes, str]]] = {
    "pdf": making.pdf,
    "notes": comments.notes,
}
"""Files that a link asks for, by pattern and edition: the bytes and their media type."""
