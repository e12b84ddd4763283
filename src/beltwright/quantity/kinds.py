"""The kinds of quantity that a build is made of."""

from enum import Enum


class Kind(Enum):
    """A kind of quantity: its name in the sentence, an example, and whether it may go below 0."""

    LENGTH = ("a length", "118 mm", True)
    ANGLE = ("an angle", "24 deg", True)
    MASS = ("a mass", "82 kg", False)
    SPEED = ("a speed", "20 km/h", False)
    ROTATION = ("a speed of turning", "3300 rpm", False)
    POWER = ("a power", "9.3 kW", False)
    TORQUE = ("a torque", "25 N·m", True)
    FORCE = ("a force", "180 N", True)
    TEMPERATURE = ("a temperature", "80 °C", True)
    PRESSURE = ("a pressure", "0.7 bar", True)
    SPRING_RATE = ("a spring rate", "2.4 N/mm", False)
    VOLUME = ("a volume", "0.6 L", False)
    AREA = ("an area", "1.2 m²", False)
    MONEY = ("an amount of money", "160 EUR", True)
    RATIO = ("a share or a plain number", "18 %", True)
    TIME = ("a time", "90 s", False)
    DENSITY = ("a density", "7850 kg/m³", False)
    LINEAR_MASS = ("a mass per length", "0.12 kg/m", False)
    ACCELERATION = ("an acceleration", "3 m/s²", True)
    ENERGY = ("an energy", "4 kJ", True)
    INERTIA = ("a moment of inertia", "0.02 kg·m²", False)

    def __init__(self, noun: str, example: str, below_zero: bool) -> None:
        """Name the parts of the entry."""
        self.noun = noun
        self.example = example
        self.below_zero = below_zero
