"""The length to saw of every piece of a plan, by its mark."""

from drylay.plan.model import Plan


def sizes_to_saw(plan: Plan) -> dict[str, float]:
    """Return the mm to cut of every piece of board, fascia, frame and ground fabric, by mark."""
    pieces, edges, frame = plan.pieces, plan.edges, plan.frame
    sizes = {piece.mark: piece.cut_mm for piece in (pieces.pieces if pieces else ())}
    faces = edges.faces if edges else ()
    sizes |= {part.mark: part.length_mm for face in faces for part in face.pieces}
    if frame is not None:
        sizes |= {piece.mark: piece.length_mm for rim in frame.rims for piece in rim.pieces}
        sizes |= {joist.mark: joist.length_mm for joist in frame.joists}
        sizes |= {noggin.mark: noggin.length_mm for noggin in frame.noggins}
        sizes |= {splice.mark: splice.length_mm for splice in frame.splices}
    fabric = plan.groundwork.fabric if plan.groundwork else None
    sizes |= {strip.mark: strip.length_mm for strip in (fabric.strips if fabric else ())}
    return sizes
