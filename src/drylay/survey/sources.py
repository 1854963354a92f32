"""Who says so: the figures of this room, each with its source."""

from drylay.reasons import Source

#: What a tape is right to, as one standard deviation, where nothing is told. Assumption.
ACCURACY_MM = 3.0
#: Four sides and a diagonal fix the other diagonal; more than this beside it is a wrong measure.
#: Common practice, no source.
MISFIT_MM = 10.0
#: The share of such surveys that bars and tests hold. Usual in the trade of surveying.
COVERAGE = 0.95
#: A residual so many times its standard deviation is a wrong measure. Source: Baarda 1968, from
#: memory (one in a thousand, either way).
SNOOP = 3.29
#: A far side further off parallel than this is told: 20 to 40 is met. Common practice, no source.
TAPER_MM = 20.0
#: A run of levels closes within this. Common practice, no source.
CLOSURE_MM = 3.0
#: Steeper ground, and more earth held back, are for a professional. Common practice, no source.
SLOPE, RETAINED_MM = 0.25, 600.0
#: How much more room earth takes once it is dug. Common practice, no source.
BULKING = 1.25
#: What a skip of six cubic yards holds, 4.587 to the litre. Arithmetic: 6 x 0.9144 cubed.
SKIP_M3 = 4.587
#: What a cubic metre of gravel fill weighs. Common practice, no source.
FILL_KG_M3 = 1600.0

PRACTICE = Source(kind="common practice", title="no source")
SUM = Source(kind="arithmetic", title="least squares and plane geometry")
ASSUMED = Source(kind="assumption", title="drylay")
BAARDA = Source(kind="from memory", title="Baarda, A testing procedure (1968)", clause="snooping")
CHI = Source(kind="handbook", title="chi-square test of the sum of squares", clause="95 %")
