"""Colours ``#rrggbb`` as light: the sRGB curve (IEC 61966-2-1), luminance and contrast (WCAG 2.2),
and how far two lie apart to the eye (CIELAB and CIEDE2000, ISO/CIE 11664-4 and -6)."""

from math import atan2, copysign, cos, degrees, exp, hypot, radians, sin, sqrt

Light = tuple[float, float, float]
"""The light of red, green and blue, each 0 to 1."""

Lab = tuple[float, float, float]
"""CIELAB L*, a*, b* under daylight D65."""


def light_of(channel: float) -> float:
    """The light of an sRGB channel, both 0 to 1."""
    return channel / 12.92 if channel <= 0.04045 else ((channel + 0.055) / 1.055) ** 2.4


def channel_of(light: float) -> float:
    """The sRGB channel of a light, both 0 to 1."""
    return 12.92 * light if light <= 0.0031308 else 1.055 * light ** (1 / 2.4) - 0.055


def lights(colour: str) -> Light:
    """The light of red, green and blue, each 0 to 1."""
    red, green, blue = (light_of(int(colour[at : at + 2], 16) / 255) for at in (1, 3, 5))
    return red, green, blue


def luminance(colour: str) -> float:
    """Relative luminance, 0 black to 1 white."""
    red, green, blue = lights(colour)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def colour_of(light: Light) -> str:
    """The nearest ``#rrggbb``."""
    return "#" + "".join(f"{int(channel_of(each) * 255 + 0.5):02x}" for each in light)


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colours, 1 to 21."""
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


# From the light of red, green and blue to CIE XYZ over that of white, which is D65: the primaries
# of sRGB, their fractions as W3C CSS Color 4 prints them (section 18).
_WHITE = (0.3127 / 0.3290, 1.0, (1 - 0.3127 - 0.3290) / 0.3290)
_TO_XYZ = (
    (506752 / 1228815, 87881 / 245763, 12673 / 70218),
    (87098 / 409605, 175762 / 245763, 12673 / 175545),
    (7918 / 409605, 87881 / 737289, 1001167 / 1053270),
)


def lab_of(light: Light) -> Lab:
    """The light as CIELAB (ISO/CIE 11664-4)."""
    x, y, z = (
        _lab_curve(sum(share * each for share, each in zip(row, light, strict=True)) / white)
        for row, white in zip(_TO_XYZ, _WHITE, strict=True)
    )
    return 116 * y - 16, 500 * (x - y), 200 * (y - z)


def _lab_curve(part: float) -> float:
    low = 6 / 29
    return part ** (1 / 3) if part > low**3 else part / (3 * low**2) + 4 / 29


def apart(one: Lab, other: Lab) -> float:
    """CIEDE2000 (ISO/CIE 11664-6) between two colours, with all parametric factors 1."""
    (light_1, a_1, b_1), (light_2, a_2, b_2) = one, other
    stretch = 1 + (1 - _blue_share((hypot(a_1, b_1) + hypot(a_2, b_2)) / 2)) / 2
    chroma_1, hue_1 = _polar(a_1 * stretch, b_1)
    chroma_2, hue_2 = _polar(a_2 * stretch, b_2)
    chroma, light = (chroma_1 + chroma_2) / 2, (light_1 + light_2) / 2
    if chroma_1 and chroma_2:
        turn = hue_2 - hue_1
        turn -= copysign(360, turn) if abs(turn) > 180 else 0
        hue = radians((hue_1 + turn / 2) % 360)
    else:
        turn, hue = 0.0, radians(hue_1 + hue_2)  # a grey has no hue
    spread = (
        1
        - 0.17 * cos(hue - radians(30))
        + 0.24 * cos(2 * hue)
        + 0.32 * cos(3 * hue + radians(6))
        - 0.20 * cos(4 * hue - radians(63))
    )
    far = (light - 50) ** 2
    in_light = (light_2 - light_1) / (1 + 0.015 * far / sqrt(20 + far))
    in_chroma = (chroma_2 - chroma_1) / (1 + 0.045 * chroma)
    in_hue = 2 * sqrt(chroma_1 * chroma_2) * sin(radians(turn) / 2)
    in_hue /= 1 + 0.015 * chroma * spread
    blue = radians(60) * exp(-(((degrees(hue) - 275) / 25) ** 2))
    together = -2 * _blue_share(chroma) * sin(blue)
    squares = in_light**2 + in_chroma**2 + in_hue**2 + together * in_chroma * in_hue
    return sqrt(max(squares, 0.0))


def _blue_share(chroma: float) -> float:
    return sqrt(chroma**7 / (chroma**7 + 25.0**7))


def _polar(a: float, b: float) -> tuple[float, float]:
    """Chroma, and hue in degrees from 0."""
    return hypot(a, b), degrees(atan2(b, a)) % 360
