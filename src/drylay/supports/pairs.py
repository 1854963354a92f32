"""Pairs of joists: two that touch under every joint line, even lines between."""

from collections.abc import Sequence
from itertools import pairwise

from attrs import evolve

from drylay.errors import Fault, InputError
from drylay.marks import exact, is_number, to_mm
from drylay.supports.lines import place_joists
from drylay.supports.model import JoistLine, Seam, Supports


def place_pairs(
    *,
    length_mm: float,
    joist_mm: float,
    most_centres_mm: float,
    seams_mm: Sequence[float],
    start_mm: float = 0.0,
    units: str = "metric",
) -> Supports:
    """Return the joist lines of a frame whose joints lie over the seams of pairs.

    Each seam parts the frame into sections. Every section has its lines as `place_joists` sets
    them, a joist flush at both its ends; so two joists touch at each seam.

    Args:
        length_mm: Frame along the boards, outer face to outer face.
        joist_mm: Joist thickness.
        most_centres_mm: Widest bay allowed, centre to centre.
        seams_mm: The joint lines, from the cover's datum, each beyond the one before.
        start_mm: Where the frame's face lies from the cover's datum (a fascia's thickness).
        units: "metric" or "imperial" pencil marks.

    Raises:
        InputError: A seam is out of order or outside the frame, a section has no room for two
            joists, or `place_joists` would refuse a length.

    Source: geometry; a joist of its own for each board end by common practice, no source.
    """
    _refuse_bad(length_mm, joist_mm, seams_mm, start_mm)
    faces = [exact(start_mm), *map(exact, seams_mm), exact(start_mm) + exact(length_mm)]
    sections = [
        place_joists(
            length_mm=to_mm(far - near),
            joist_mm=joist_mm,
            most_centres_mm=most_centres_mm,
            start_mm=to_mm(near),
            units=units,
        )
        for near, far in pairwise(faces)
    ]
    lines = [line for section in sections for line in section.lines]
    return Supports(
        most_centres_mm=most_centres_mm,
        centres_mm=max(section.centres_mm for section in sections),
        line_count=len(lines),
        joist_thickness_mm=joist_mm,
        lines=tuple(JoistLine(offset_mm=line.offset_mm) for line in lines),
        joists_under_joint=2,
        seam_count=len(faces) - 2,
        seams=_seams(faces[1:-1], [section.line_count for section in sections]),
    )


def _seams(at: list[int], counts: list[int]) -> tuple[Seam, ...]:
    """Return the seams with the marks of their joists, by how many joists each section has."""
    found: list[Seam] = []
    left = 0
    for seam, count in zip(at, counts, strict=False):
        left += count
        found.append(Seam(offset_mm=to_mm(seam), left=f"J{left}", right=f"J{left + 1}"))
    return tuple(found)


def with_overhang(
    supports: Supports, *, row_length_mm: float, frame_start_mm: float, frame_length_mm: float,
    most_mm: float,
) -> Supports:  # fmt: skip
    """Return the supports with how far boards reach past the frame's ends, and may at most.

    Source: geometry: a planted fascia's thickness, where an end has one.
    """
    near = exact(frame_start_mm)
    far = exact(row_length_mm) - near - exact(frame_length_mm)
    return evolve(supports, overhang_mm=to_mm(max(near, far)), overhang_most_mm=most_mm)


def _refuse_bad(
    length_mm: float, joist_mm: float, seams_mm: Sequence[float], start_mm: float
) -> None:
    given = {"length_mm": length_mm, "joist_mm": joist_mm, "start_mm": start_mm}
    given |= {f"seams_mm[{at}]": seam for at, seam in enumerate(seams_mm)}
    faults = [
        Fault(path=path, found=repr(value), wanted="a length of 0 mm or more, not over 1 km")
        for path, value in given.items()
        if not is_number(value) or not 0.0 <= value <= 1e6
    ]
    if not faults and seams_mm:
        faces = [start_mm, *seams_mm, start_mm + length_mm]
        faults = [
            Fault(
                path=f"seams_mm[{min(at, len(seams_mm) - 1)}]",
                found=f"{far:g} after {near:g}",
                wanted=f"two joists' room, {2 * joist_mm:g} mm",
            )
            for at, (near, far) in enumerate(pairwise(faces))
            if exact(far) - exact(near) < 2 * exact(joist_mm)
        ]
    if faults:
        raise InputError(tuple(faults))
