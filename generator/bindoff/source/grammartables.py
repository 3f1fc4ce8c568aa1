"""Where the parser keeps the tables it makes of a grammar, as Python keeps compiled modules."""

import sys
from importlib.util import cache_from_source
from pathlib import Path


def tables_of(grammar: Path) -> str | bool:
    """A value for the parser's option ``cache``: a file among the compiled modules, or ``False``.

    The parser reads it only if it was made of the same grammar, options, parser and Python, by
    their digest, and else makes it anew. Where Python may write no compiled modules, none is begun.
    """
    kept = Path(cache_from_source(str(grammar))).with_suffix(".lark")
    if sys.dont_write_bytecode and not kept.exists():
        return False
    return str(kept)
