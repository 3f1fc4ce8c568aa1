"""Files put into one archive, the same bytes for the same files."""

import zipfile
from collections.abc import Iterable
from io import BytesIO

_DAY_ONE = (1980, 1, 1, 0, 0, 0)  # the earliest that the format knows; nothing here has a time
_UNIX, _READABLE = 3, 0o100644 << 16


def zipped(files: Iterable[tuple[str, bytes]], stored: frozenset[str] = frozenset()) -> bytes:
    """An archive of ``files`` in their order; those ``stored`` are not compressed."""
    out = BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in files:
            entry = zipfile.ZipInfo(name, _DAY_ONE)
            entry.create_system, entry.external_attr = _UNIX, _READABLE
            entry.compress_type = zipfile.ZIP_STORED if name in stored else zipfile.ZIP_DEFLATED
            archive.writestr(entry, data)
    return out.getvalue()
