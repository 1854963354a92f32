"""The length to saw of every piece of a plan, by its mark; of fabric, to cut."""

from drylay.plan.model import Plan


def sizes_to_saw(plan: Plan) -> dict[str, float]:
    """Return the mm to saw of every piece of board, fascia and frame, to cut of fabric, by mark."""
    pieces, edges, frame = plan.pieces, plan.edges, plan.frame
    sizes = {piece.mark: piece.cut_mm for piece in (pieces.pieces if pieces else ())}
    faces = edges.faces if edges else ()
    sizes |= {part.mark: part.length_mm for face in faces for part in face.pieces}
    if frame is not None:
        sizes |= {piece.mark: piece.length_mm for rim in frame.rims for piece in rim.pieces}
        sizes |= dict(frame.joists_sawn)
        sizes |= {noggin.mark: noggin.length_mm for noggin in frame.noggins}
        sizes |= {splice.mark: splice.length_mm for splice in frame.splices}
        sizes |= {batten.mark: batten.length_mm for batten in frame.battens}
    laying, subframe = plan.laying, plan.subframe
    sizes |= {piece.mark: piece.cut_mm for piece in (laying.pieces if laying else ())}
    if subframe is not None:
        sizes |= {member.mark: member.length_mm for member in subframe.members}
        sizes |= {facing.mark: facing.length_mm for facing in subframe.facings}
        sizes |= {batten.mark: batten.length_mm for batten in subframe.battens}
    legs = plan.raised.pieces if plan.raised is not None else ()
    sizes |= {piece.mark: piece.length_mm for piece in legs}
    fabric = plan.groundwork.fabric if plan.groundwork is not None else None
    return sizes | {strip.mark: strip.length_mm for strip in (fabric.strips if fabric else ())}
