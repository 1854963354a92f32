"""Beams through an independent, general finite-element library, and random ones to hand to it."""

from collections.abc import Sequence
from itertools import pairwise
from random import Random
from typing import Any

import pytest
from attrs import frozen

from drylay.strength.beam_line import Load
from drylay.strength.model import Beam, Effects, LineLoad, PointLoad


@frozen(kw_only=True)
class Elsewhere:
    sagging_kn_m: float
    hogging_kn_m: float
    shear_kn: float
    reactions_kn: tuple[float, ...]
    downs_mm: tuple[float, ...]


def elsewhere(beam: Beam, loads: Sequence[Load], at_mm: Sequence[float] = ()) -> Elsewhere:
    """Return what PyNite (MIT licence) makes of a beam, and how far it goes down at places."""
    model, nodes, members = _modelled(beam, loads, at_mm)
    model.analyze_linear(check_stability=False, sparse=False)
    whole = [model.members[member] for member in members]
    combo = "Combo 1"
    # its moments are above 0 where they hog
    hogs = [m.max_moment("Mz", combo) for m in whole]
    sags = [m.min_moment("Mz", combo) for m in whole]
    shears = [m.max_shear("Fy", combo) for m in whole] + [m.min_shear("Fy", combo) for m in whole]
    return Elsewhere(
        sagging_kn_m=-min(sags),
        hogging_kn_m=-max(hogs),
        shear_kn=max(map(abs, shears)),
        reactions_kn=tuple(model.nodes[nodes[mm]].RxnFY[combo] for mm in beam.supports_mm),
        downs_mm=tuple(-1000 * model.nodes[nodes[mm]].DY[combo] for mm in at_mm),
    )


def _modelled(
    beam: Beam, loads: Sequence[Load], at_mm: Sequence[float]
) -> tuple[Any, dict[float, str], list[str]]:
    """Return the other library's model, which node stands at each place, and its members."""
    model = pytest.importorskip("Pynite").FEModel3D()
    model.add_material("wood", 1.0, 1.0, 0.3, 0.0)
    model.add_section("one", 1e3, 1.0, beam.bending_stiffness_kn_m2, 1.0)
    marks, places = _marks(beam, loads, at_mm)
    names = [f"n{place}" for place in range(len(places))]
    for name, mm in zip(names, places, strict=True):
        model.add_node(name, mm / 1000, 0, 0)
    nearest = {mark: min(range(len(places)), key=lambda n: abs(places[n] - mark)) for mark in marks}
    for support in beam.supports_mm:
        first = support == beam.supports_mm[0]
        model.def_support(names[nearest[support]], first, True, True, first, False, False)
    members = [f"{a}-{b}" for a, b in pairwise(names)]
    for member, (a, b) in zip(members, pairwise(names), strict=True):
        model.add_member(member, a, b, "wood", "one")
    for load in loads:
        if isinstance(load, PointLoad):
            model.add_node_load(names[nearest[load.at_mm]], "FY", -load.load_kn)
            continue
        for member in members[nearest[load.from_mm] : nearest[load.to_mm]]:
            model.add_member_dist_load(member, "FY", -load.load_kn_m, -load.load_kn_m)
    return model, {mark: names[place] for mark, place in nearest.items()}, members


def _marks(
    beam: Beam, loads: Sequence[Load], at_mm: Sequence[float]
) -> tuple[set[float], list[float]]:
    """Return every place that is asked about, and those of them that get a node.

    Nodes nearer than 1e-3 mm make a stiffness matrix that loses its digits.
    """
    marks = {0.0, beam.length_mm, *beam.supports_mm, *at_mm}
    for load in loads:
        marks |= {load.at_mm} if isinstance(load, PointLoad) else {load.from_mm, load.to_mm}
    places: list[float] = []
    for mark in sorted(marks):
        if not places or mark - places[-1] > 1e-3:
            places.append(mark)
    return marks, places


def same(beam: Beam, loads: Sequence[Load], effects: Effects, within: float = 1e-3) -> None:
    """Hold effects against the other library, each within a share of the largest of its kind."""
    other = elsewhere(beam, loads, (effects.down.at_mm, effects.up.at_mm))
    moment = max(abs(other.sagging_kn_m), abs(other.hogging_kn_m))
    assert effects.sagging.value_kn_m == pytest.approx(other.sagging_kn_m, within, within * moment)
    assert effects.hogging.value_kn_m == pytest.approx(other.hogging_kn_m, within, within * moment)
    assert effects.shear_kn == pytest.approx(other.shear_kn, within)
    force = max(map(abs, other.reactions_kn))
    assert effects.reactions_kn == pytest.approx(other.reactions_kn, within, within * force)
    downs = (effects.down.deflection_mm, effects.up.deflection_mm)
    assert downs == pytest.approx(other.downs_mm, within, within * max(map(abs, other.downs_mm)))


def some_beams(count: int, seed: int) -> list[tuple[Beam, list[Load]]]:
    """Return random beams over two to five supports, some with ends that reach past."""
    random = Random(seed)
    return [_one(random) for _ in range(count)]


def _one(random: Random) -> tuple[Beam, list[Load]]:
    left, right = (random.choice([0, random.randint(100, 1200)]) for _ in range(2))
    places = [float(left)]
    for _ in range(random.randint(1, 4)):
        places.append(places[-1] + random.randint(600, 5000))
    length = places[-1] + right
    beam = Beam(
        length_mm=length,
        supports_mm=tuple(places),
        bending_stiffness_kn_m2=random.uniform(20, 2000),
    )
    loads: list[Load] = []
    for _ in range(random.randint(1, 3)):
        low, high = sorted(random.sample(range(int(length) + 1), 2))
        loads.append(LineLoad(from_mm=low, to_mm=high, load_kn_m=random.uniform(-1, 4)))
    for _ in range(random.randint(0, 2)):
        at = random.randint(0, int(length))
        loads.append(PointLoad(at_mm=at, load_kn=random.uniform(0.2, 5)))
    return beam, loads
