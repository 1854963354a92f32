"""A first brief to fill in: every key, explained, with values that can be planned from."""

from string import Template

from attrs import evolve

from drylay.brief.model import UNITS
from drylay.brief.starter_values import VALUES
from drylay.counting import counted
from drylay.errors import BriefError, Fault
from drylay.intake.keys import choice
from drylay.intake.values import read_choice

_TEMPLATE = Template("""\
# A brief for a rectangular deck, on the ground or on posts. Change what is wrong for your garden.
# Lengths: a number of millimetres (along_mm = 6000) or a text with its unit under the bare
# name (along = "6 m", along = "19 ft 8 1/4 in"). Lines that begin with "# " and a key are
# wishes left out: the board's family or the merchant then decides.

title = "My deck"               # stands on every paper
use = "dwelling"                # dwelling, balcony, public, crowd or hot tub
units = "$units"              # metric or imperial: the units and pencil marks of the papers

[cover]                         # the finished surface, over the outer faces of any fascia
along = "$along"               # along the house
across = "$across"              # from the house into the garden
grow_along = "$change"            # how far the deck may grow along the house
shrink_along = "$change"          # how far it may shrink along the house
grow_across = "$change"           # how far it may grow away from the house
shrink_across = "$change"         # how far it may shrink away from the house

[board]
article = "$board"         # the merchant's code of the deck board, or of a tile
# support = "pads"              # tiles only: what they lie on, frame or pads
run = "along"                   # which way boards run: along the house, or across
may_turn = false                # may the boards run the other way if that fits better?
# measured_width = "$width"      # the mean of ten boards, where you have them already
ends = "cut_first"              # cut_first, or trim_in_line: laid long, sawn in one line
# trim_allowance = "$trim"       # how long outer pieces are laid, if trimmed in line
# face_up = "smooth"            # smooth or grooved, where the board has such a face

[border]                        # the first and the last rows of another board
# article = "$border"           # the merchant's code of that board
# rows = 1                      # how many rows at either edge, 1 to 3
# measured_width = "$border_width"  # mean width of ten of its boards
# screw = "$screw"              # its own screw, where the field's does not do

[gap]                           # between rows, when laying
preferred = "$preferred"              # the gap to aim for
least = "$least"                  # the narrowest you accept
most = "$most"                   # the widest you accept

[rows]
sliver = "$sliver"                # a row narrower than this is a sliver
# least_rip = "$least_rip"             # the narrowest a board may be ripped
may_rip = true                  # may boards be ripped lengthwise at all?
# Ways out of a sliver, the one you like best first.
prefer = ["as_wished", "gaps", "shrink", "grow", "rip_both", "rip_last", "turn"]

[frame]
article = "$frame"         # the merchant's code of the frame timber
# run = "across"                # which way joists run: across the boards, or the plan stops
most_centres = "$centres"         # joists no further apart than this, centre to centre
lines = "fewest"                # fewest joists, or cheapest deck

[fascia]
sides = ["right", "front", "left"]  # of house, right, front, left; [] for none
article = "$fascia"         # the merchant's code of the fascia board
# skirting = "none"             # none, slotted or solid: what closes the sides down to the ground

[joints]                        # where a row is longer than the boards on sale
end_gap = "$end_gap"                # between board ends at a joint
# least_supports = 3            # joists under every piece
# stagger_bays = 2              # bays between joints of neighbouring rows
# most_per_row = 1              # joints in one row at most
# price_each = "1.50"           # what it is worth to you to avoid one joint
# support = "pair"              # single, batten at a joist's side, or a pair of joists
# lines = ["$line", "$further"]  # where pairs stand under the joints

[cutting]
kerf = "$kerf"                   # what the saw takes
end_trim = "$end_trim"               # what is cut off each end of every bought length

[fixings]
screw = "$screw"            # the merchant's code of the deck screw
coach_screw = "$coach"      # the merchant's code of the coach screw
frame_screw = "$frame_screw"   # screw of noggins and splices; left out, it is not counted
fascia_screw = "$fascia_screw"  # screw of the fascia; left out, it is not counted
# hanger = "$hanger"        # joist hangers instead of coach screws, but for the outer two joists
# clip = "CL-ROW-5"             # hidden clips between the rows, for boards that want them
# starter_clip = "CL-START"     # clips under the first row's outer edge
# end_cap = "CL-CAP-23"         # caps for the ends of hollow boards

[climate]                       # temperatures of the boards, in degrees Celsius; moisture in %
# laying_c = 12                 # how warm the boards are laid
# hottest_board_c = 60          # the hottest they get: in full sun
# coldest_board_c = -10         # the coldest they get
# laying_humidity_ratio = 0.8   # how damp the air is in which they lay
# laying_pct = 18               # their moisture content when laid
# wettest_pct = 24              # the wettest they get later
# driest_pct = 14               # the driest they get later

[finish]                        # what is brushed on
preserver = "$preserver"         # for sawn ends: the merchant's code; left out: not bought
# end_wax = "$wax"         # wax for boards' sawn ends, where their family wants some
article = "$finish"        # oil, stain or paint for boards and fascia; left out: none
# coats = 2                     # of the finish; what the tin says comes first

[lights]                        # lights let into the boards; none unless count is above 0
count = 0                       # how many
side = "front"                  # along which side
# hole = "$hole"                 # the hole each takes, by its own instructions
# depth = "$deep"                # how deep it reaches below the boards' top

[crew]
people = 2                      # how many build: 1 or 2

[groundwork]                    # under the deck; what is left out is neither counted nor bought
# margin = "$margin"             # how far the dig reaches beyond the cover on every side
# strip = "$strip"               # how deep the turf is stripped
# below_lawn = "$below"          # how far the gravel ends under the lawn
# lap = "$lap"                # how far strips of fabric lap
# spoil = "skip"                # where the earth goes: skip, bags or kept
# fabric = "$fabric"            # the merchant's code of the ground fabric
# gravel = "$gravel"            # the merchant's code of the gravel
# packer = "$packer"            # the merchant's code of the packer under the joists
# packer_spacing = "$packing"   # how far apart packers stand at most

[site]
exposure = "inland"             # inland, coast or pool
roof = false                    # does the deck lie on a roof, over rooms?
# region = "$region"  # whose rules hold for guards, steps and footings
# soil = "$soil"  # what footings bear on, in that region's own word
# frost = "$frost"              # how deep the ground freezes here, as the local authority tells

[tub]                           # a tub of water on the deck: with use = "hot tub", an engineer's
# foot_along = "$tub"           # its foot along the house
# foot_across = "$tub"          # and away from it
# filled_kg = 1600              # filled, with those in it

[drains]                        # drains that are known of
# covers = [{ from_along = "$brick", from_across = "$across", along = "$hatch", across = "$hatch", whose = "own" }]  # inspection covers: corner, size, own, shared, public or unknown

# Levels below are heights from one datum of your own, such as the damp course; below it with a
# minus. Leave out what you have not measured: the plan then says that it was not checked.
[house]                         # the wall beside the deck
# wall_gap = "$wall_gap"             # left between wall and cover
# dpc = "$dpc"                  # the damp course
# floor = "$floor"              # the floor inside the door
# steps_down = 2                # equal rises from that floor down to the deck
# rises_to_ground = 3           # equal rises from it to the ground, those among them
# door_opens = "inward"         # outward, inward or sliding
# door_leaf = "$leaf"          # the lower edge of the door's leaf
# sill = "$leaf"               # the door's sill, which rain must not run over
# air_bricks = [{ along = "$brick", under = "$under" }]  # from the left, and the lower edge
# wall = "solid masonry"        # concrete, veneer, cavity, insulated, framed or unknown: for a ledger

[levels]
# datum = "damp course"         # what all levels are told from
# deck_top = "$top"          # the finished level, if it is settled
# lowest = "$lowest"            # the lowest ground of the garden outside the deck
# outfall = true                # can water that gathers under the deck run away?
# falls = "level"               # how the top lies: level, from the house or to the house
# points = [{ along = "$nought", across = "$nought", level = "$near" }, { along = "$along", across = "$nought", level = "$near" }, { along = "$along", across = "$across", level = "$far" }, { along = "$nought", across = "$across", level = "$far" }]  # ground heights, four or more

# As soon as a deck leaves the ground it can hurt someone. What follows is held against the limits
# that you name, and no more: local rules and licensed people come first. Frost, footings in doubt,
# crowds, hot tubs and high decks are an engineer's.
[strength]                      # by whose rules timber is screened; left out: strength is not checked
# basis = "$basis"    # eurocode-5 or us-allowable-stress
# sharing = "one joist"         # how a point load is shared, in the words of that basis
# board_class = "$class"           # the boards' strength class, where their seller declares one

[raised]                        # bearers on posts; the deck stands where post names their timber
# post = "$post"         # the merchant's code of the posts' timber
# bearer = "$bearer"       # that of the bearers'; left out: every graded timber is tried
# plies = 2                     # how many of them side by side are one bearer
# joists = "over"              # over the bearers, or between: hung between them, tops flush
# lines = ["$line_1", "$line_2"]  # bearers' middles, from the house's end of the frame
# posts = ["$post_1", "$post_2", "$post_3"]  # posts' middles, from each bearer's start
# ledger = true                 # may joists hang on the wall, where it is sound?
# ledger_fixing = "bolt"        # what holds it there, in the words of the basis
# ledger_spacing = "$ledger"    # how far apart those are
# foot = "metal foot"           # metal foot, or in concrete
# stand_off = "$stand_off"           # how far a metal foot keeps the post off the ground
# embed = "$embed"           # how deep posts run on into concrete, where they do
# brace_over = "$brace"        # posts higher than this are braced
# hold_down_kn = 2.5            # what ties at joists and bearers hold down, in kN, as declared
# footing = "concreted hole"    # concreted hole, pad or ground screw
# shape = "square"              # square or round
# screw_kn = 12.5               # what a ground screw carries, in kN, as its maker declares
# concrete = "$concrete"           # the merchant's code of the dry mix; left out: not bought
# post_foot = "$post_foot"     # that of the metal feet; left out: not bought

[guards]                        # where an edge needs one; left out: told, and not built
# infill = "balusters"          # balusters, or rails, which children climb
# thickness = "$baluster"          # of each of them
# post = "$guard_post"               # the posts' thickness
# post_spacing = "$bay"       # posts no further apart than this
# height = "$height"             # from the boards to the top; never less than the region asks
# post_article = "$guard_timber"   # their timber, graded; this and the four below hang together:
# bolt = "$bolt"               # two through each post and the frame's edge, in the basis's words
# washer = "$washer"               # how far across, round, under heads and nuts
# upper_bolt = "$upper_bolt"           # how far below the boards' top the upper bolt lies
# bolts_apart = "$bolts_apart"         # how far below that the other one

[steps]                         # a flight down to the ground; none unless side names one
# side = "front"                # right, front or left
# from = "$steps_from"                # where it starts, from the side's corner nearer the datum
# width = "$steps_width"            # how broad it is
# tread = "$tread"             # how thick its treads are
# going = "$going"            # from nosing to nosing
# risers = 2                    # how many rises, those all equal

# A named person may override a decision; the plan then shows it first.
# [[overrides]]
# path = "supports.most_centres_mm"  # which decision
# value = $override                # the value
# unit = "mm"                   # mm, count or ratio
# by = ""                       # who says so: name and trade
# reason = ""                   # and why
""")  # noqa: E501 - a commented key stands on one line


@counted
def starter_brief(units: str = "metric") -> str:
    """Return a commented brief in TOML that reads back and names articles of the demo stock.

    Raises:
        BriefError: `units` is neither "metric" nor "imperial".
    """
    answer = read_choice(choice("units", UNITS), units)
    if isinstance(answer, Fault):
        raise BriefError((evolve(answer, path="units"),))
    return _aligned(_TEMPLATE.substitute(VALUES[units], units=units))


def _aligned(text: str) -> str:
    """Return the text with the comments behind keys in one column."""
    lines = []
    for line in text.split("\n"):
        head, mark, comment = line.rpartition("  # ")
        lines.append(f"{head.rstrip():<36}  # {comment}" if mark and head.strip() else line)
    return "\n".join(lines)
