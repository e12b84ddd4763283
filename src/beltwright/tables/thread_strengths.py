"""Strengths that decide what a screwed joint carries: metals round the hole, and bolt grades."""

from typing import NamedTuple

from beltwright.tables.loading import Table, load


class ThreadMaterial(NamedTuple):
    """A row of thread_materials.csv: strengths of the metal that holds the thread [Pa]."""

    material: str
    tensile: float
    shear: float
    example: str
    source: str
    status: str


class BoltGrade(NamedTuple):
    """A row of bolt_grades.csv: proof and tensile strength [Pa]."""

    grade: str
    proof: float
    tensile: float
    metric: bool
    source: str
    status: str


def thread_materials() -> Table[ThreadMaterial]:
    """Metals that threads are cut in."""
    return load("thread_materials", ThreadMaterial)


def thread_material(name: str) -> ThreadMaterial:
    """One metal; KeyError lists the known ones."""
    return thread_materials().named(name)


def bolt_grades() -> Table[BoltGrade]:
    """Classes and grades of bolts."""
    return load("bolt_grades", BoltGrade)


def bolt_grade(name: str) -> BoltGrade:
    """One grade as marked on the head; KeyError lists the known ones."""
    return bolt_grades().named(name)
