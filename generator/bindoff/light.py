"""Colours ``#rrggbb`` as light: the sRGB curve (IEC 61966-2-1), luminance, contrast (WCAG 2.2)."""


def light_of(channel: float) -> float:
    """The light of an sRGB channel, both 0 to 1."""
    return channel / 12.92 if channel <= 0.04045 else ((channel + 0.055) / 1.055) ** 2.4


def channel_of(light: float) -> float:
    """The sRGB channel of a light, both 0 to 1."""
    return 12.92 * light if light <= 0.0031308 else 1.055 * light ** (1 / 2.4) - 0.055


def lights(colour: str) -> tuple[float, float, float]:
    """The light of red, green and blue, each 0 to 1."""
    red, green, blue = (light_of(int(colour[at : at + 2], 16) / 255) for at in (1, 3, 5))
    return red, green, blue


def luminance(colour: str) -> float:
    """Relative luminance, 0 black to 1 white."""
    red, green, blue = lights(colour)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colours, 1 to 21."""
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)
