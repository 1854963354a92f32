"""Faults planted in what is brushed on."""

from audit.planting import Fault, both, by, to, turned, without

P, F, W = "fixings.preserver", "fixings.finish", "fixings.wax"
COATS: tuple[Fault, ...] = (
    ("AUD-651", "a sawn end too few", by(f"{P}.parts[0].ends", -1)),
    ("AUD-651", "a sum of ends too high", by(f"{P}.ends", 1)),
    ("AUD-651", "a kind left out", without(f"{P}.parts", 3)),
    ("AUD-651", "kinds out of order", turned(f"{P}.parts", 0, 1)),
    ("AUD-651", "a length cut twice more", to("buying.end_trim_mm", 1.0)),
    ("AUD-651", "ends trimmed in line left out", to("pieces.trim_allowance_mm", 20.0)),
    ("AUD-652", "an area of its own", to(f"{P}.parts[0].area_m2", 0.04)),
    ("AUD-652", "a whole that is no sum", to(f"{P}.area_m2", 0.3)),
    ("AUD-653", "a rip nobody sawed", to(f"{P}.ripped_m2", 0.1)),
    ("AUD-653", "a rip left out", to("surface.rows[3].ripped", True)),
    ("AUD-654", "a ml too little", by(f"{P}.need_ml", -1)),
    ("AUD-655", "boards too small", to(f"{F}.boards_m2", 2.0)),
    ("AUD-655", "a fascia left out", to(f"{F}.fascia_m2", 0.0)),
    ("AUD-656", "an area of its own", to(f"{F}.area_m2", 3.0)),
    ("AUD-656", "grooves on a smooth face", to(f"{F}.groove_ratio", 0.3)),
    ("AUD-656", "a third face", to(f"{F}.face_up", "rough")),
    ("AUD-657", "a ml too much", by(f"{F}.need_ml", 1)),
    ("AUD-661", "a finish on boards that want none", to("fixings.board_finish_coats", 0)),
    ("AUD-661", "a coat more than is wanted", to("fixings.board_finish_coats", 1)),
    ("AUD-661", "a border that is not there", to("fixings.border_finish_coats", 2)),
    ("AUD-658", "no coats", to(f"{F}.coats", 0)),
    ("AUD-651", "boards that want no preserver", to("fixings.seal_board_ends", False)),
    ("AUD-653", "ripped edges of such boards", both(
        to("fixings.seal_board_ends", False), to(f"{P}.ripped_m2", 0.1))),
    ("AUD-659", "a waxed end too few", by(f"{W}.parts[0].ends", -1)),
    ("AUD-659", "another area of them", to(f"{W}.parts[0].area_m2", 0.04)),
    ("AUD-659", "ends of frame waxed", to(f"{W}.parts[0].what", "rims")),
    ("AUD-659", "a sum of waxed ends too high", by(f"{W}.ends", 1)),
    ("AUD-660", "a ml of wax too little", by(f"{W}.need_ml", -1)),
    ("AUD-660", "an area of no ends", to(f"{W}.area_m2", 0.05)),
)  # fmt: skip
COATS_HELD: tuple[Fault, ...] = (
    ("AUD-W09", "a coat too few", to(f"{P}.coats", 1)),
    ("AUD-W36", "another finish", to(f"{F}.article", "QP-1")),
    ("AUD-W36", "no preserver", to(P, None)),
    ("AUD-W36", "no wax", to(W, None)),
    ("AUD-W37", "a preserver for a wax", to(f"{W}.article", "QP-1")),
    ("AUD-W09", "ends left bare", to("fixings.seal_board_ends", False)),
    ("AUD-W28", "a board heavier than sold", to("buying.delivery.board_kg_m", 3.0)),
    ("AUD-W28", "an insert nobody sells", to("surface.groove_mm", 8.0)),
    ("AUD-W37", "a litre that covers more", to(f"{P}.covers_m2_per_l", 5.0)),
    ("AUD-W37", "a preserver for a finish", to(f"{F}.article", "QP-1")),
    ("AUD-W38", "the other face up", to(f"{F}.face_up", "grooved")),
)
