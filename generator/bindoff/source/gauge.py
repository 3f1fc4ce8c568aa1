"""What may be written for a gauge, and the swatch behind it."""

from typing import Annotated, Literal

from bindoff.english import listed
from bindoff.source.model import Field, Model, TextUse, rule


class Swatch(Model):
    """Raw measurements of a swatch: what was counted over what was measured."""

    stitches: float = Field(gt=0, description="Stitches counted across the width.")
    width: str = Field(description="The width they were counted over, such as 12 cm.")
    rounds: float = Field(gt=0, description="Rounds or rows counted up the height.")
    height: str = Field(description="The height they were counted over, such as 12 cm.")


class Gauge(Model):
    """Stitches and rounds over a length, or a measured swatch from which they follow."""

    stitches: float | None = Field(
        default=None, gt=0, description="Stitches over the length given as over."
    )
    rounds: float | None = Field(
        default=None, gt=0, description="Rounds or rows over the length given as over."
    )
    over: str = Field(default="10 cm", description="The length the gauge is counted over.")
    swatch: Swatch | None = Field(
        default=None, description="A measured swatch, instead of stitches and rounds."
    )
    state: Literal["washed", "unwashed", "blocked", "washed and blocked"] = Field(
        default="washed",
        description="What was done with the swatch before it was measured.",
    )
    worked: Annotated[str, TextUse.GAUGE] = Field(
        default="", description="The fabric it is measured in, such as stockinette in the round."
    )
    tool: Annotated[str, TextUse.GAUGE] = Field(
        default="", description="Needle size or machine tension used for it."
    )

    @rule
    def _one_way(self) -> "Gauge":
        counts = [name for name in ("stitches", "rounds") if getattr(self, name) is not None]
        if self.swatch is not None and counts:
            raise ValueError(
                "a gauge is given twice, as counts and as a swatch"
                "||Keep `stitches:` and `rounds:`, or keep `swatch:`"
            )
        if self.swatch is None and len(counts) < 2:
            missing = listed(f"`{n}`" for n in ("stitches", "rounds") if n not in counts)
            raise ValueError(
                f"this gauge has no {missing}"
                "||Give `stitches:` and `rounds:` over 10 cm, or the `swatch:` you measured"
            )
        return self
