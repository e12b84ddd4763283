"""The kinds of quantity that a build is made of."""

from enum import Enum


class Kind(Enum):
    """A kind of quantity: name in a sentence, example, SI unit, whether it may go below 0.

    Money has no SI unit; it stays in its own currency.
    """

    LENGTH = ("a length", "118 mm", "m", True)
    ANGLE = ("an angle", "24 deg", "rad", True)
    MASS = ("a mass", "82 kg", "kg", False)
    SPEED = ("a speed", "20 km/h", "m/s", False)
    ROTATION = ("a speed of turning", "3300 rpm", "rad/s", False)
    POWER = ("a power", "9.3 kW", "W", False)
    TORQUE = ("a torque", "25 N·m", "N·m", True)
    FORCE = ("a force", "180 N", "N", True)
    TEMPERATURE = ("a temperature", "80 °C", "K", True)
    PRESSURE = ("a pressure", "0.7 bar", "Pa", True)
    SPRING_RATE = ("a spring rate", "2.4 N/mm", "N/m", False)
    VOLUME = ("a volume", "0.6 L", "m³", False)
    AREA = ("an area", "1.2 m²", "m²", False)
    MONEY = ("an amount of money", "160 EUR", "", True)
    RATIO = ("a share or a plain number", "18 %", "1", True)
    TIME = ("a time", "90 s", "s", False)
    DENSITY = ("a density", "7850 kg/m³", "kg/m³", False)
    LINEAR_MASS = ("a mass per length", "0.12 kg/m", "kg/m", False)
    ACCELERATION = ("an acceleration", "3 m/s²", "m/s²", True)
    ENERGY = ("an energy", "4 kJ", "J", True)
    INERTIA = ("a moment of inertia", "0.02 kg·m²", "kg·m²", False)

    def __init__(self, noun: str, example: str, si: str, below_zero: bool) -> None:
        """Name the parts of the entry."""
        self.noun = noun
        self.example = example
        self.si = si
        self.below_zero = below_zero

    __hash__ = object.__hash__
    """By identity, as its members are compared; the enum's own goes by name, in Python."""
