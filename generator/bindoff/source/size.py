"""What may be written for a size."""

from bindoff.source.gauge import Gauge
from bindoff.source.model import Field, Model
from bindoff.source.yamltree import Place


class Size(Model):
    """One size: body measurements by name (``head: 56 cm``), or ``like`` a standard body."""

    other_keys = str

    like: str | None = Field(
        default=None, description="A body from the built-in tables, such as woman M."
    )
    needles: int | None = Field(
        default=None,
        ge=4,
        le=400,
        description="The needles of the machine for this size, where not those of the head.",
    )
    gauge: Gauge | None = Field(
        default=None, description="The gauge of this size, where it has its own."
    )

    @property
    def body(self) -> dict[str, str]:
        """The body measurements as written, by name; ``foot_length``, as formulas write it, is the
        foot length too."""
        return {key.replace("_", " "): said for key, said in self._written.items()}

    def place_of(self, measurement: str) -> Place:
        """Where the body measurement of that name is written."""
        key = next(key for key in self._written if key.replace("_", " ") == measurement)
        return self.place.of(key)

    @property
    def _written(self) -> dict[str, str]:
        return self.__pydantic_extra__ or {}
