"""Texts print what the library whose grammar they have would print."""

import jinja2
import pytest

from bindoff.document.braces import read
from bindoff.document.printing import Printing, UnknownError

VALUES = {
    "n": 5,
    "word": "purl",
    "yes": True,
    "nobody": "",
    "list": ["p", "q", "r"],
    "empty": [],
    "group": {"key": "v", "inner": {"w": 3}},
    "yarns": [{"name": "Slate", "balls": 1}, {"name": "Foam", "balls": 2}],
}

TEXTS = [
    "{% for x in list if x != 'q' %}{{ loop.index }}{{ x }}{{ ', ' if not loop.last }}{% endfor %}",
    "{% for x in empty %}a{% else %}none{% endfor %}",
    "{% for x in list %}{% for y in yarns %}{{ x }}{{ y.name }}{{ loop.length }}{% endfor %}\n"
    "{{ loop.first }}{% endfor %}",
    "{% if n > 5 %}a{% elif n == 5 and not nobody %}\nb\n{% else %}c{% endif %}\nd",
    "{{ word | upper }} {{ 'TOG' | lower }} {{ list | first }}{{ list | last }}{{ list | length }}",
    "{{ list | join(', ') }} {{ yarns | join(' or ', 'name') }} {{ list | join }}",
    "{{ other | default('no') }} {{ nobody | default('no') }} {{ nobody | default('no', true) }}",
    "{{ word ~ ' ' ~ n ~ ' ' ~ yes }} {{ 1 if nobody }} {{ (1 if nobody) is defined }}",
    "{{ group.inner.w }} {{ group['key'] }} {{ yarns[1].balls }} {{ list[2] }}",
    "{{ 1 < n <= 5 }} {{ 'p' in list }} {{ 'p' not in list }} {{ n != 4 or word }} {{ not yes }}",
    "{{ other is defined }} {{ other is not defined }} {{ n is undefined }}{{ n.no is defined }}",
    "{% for n in list %}{{ n }}{% endfor %}{{ n }}{% raw %}{{ n }}{% endraw %}{# a remark #}",
]


@pytest.mark.parametrize("text", TEXTS)
def test_a_text_prints_what_the_library_prints(text: str) -> None:
    library = jinja2.Environment(
        undefined=jinja2.ChainableUndefined, trim_blocks=True, lstrip_blocks=True
    )
    parts, _ = read(text)

    assert "".join(Printing(str).parts(parts, VALUES)) == library.from_string(text).render(VALUES)


@pytest.mark.parametrize(
    "text",
    [
        *("{{ no }}", "{% if no %}{% endif %}", "{% for x in no %}{% endfor %}", "{{ no ~ 1 }}"),
        *("{{ no == 1 }}", "{{ 1 in no }}", "{{ no | upper }}", "{{ no | length }}"),
        *("{{ no.a[0] }}", "{{ list.no }}", "{{ word.upper }}", "{{ list[3] }}"),
        *("{{ empty | first }}", "{{ not no }}", "{{ no | sentence }}"),
    ],
)
def test_what_is_not_there_is_never_used(text: str) -> None:
    parts, _ = read(text)
    with pytest.raises(UnknownError):
        "".join(Printing(str).parts(parts, VALUES))
