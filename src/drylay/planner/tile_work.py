"""How a deck of tiles is built."""

from drylay.planner.job import Job
from drylay.planner.rows import PRACTICE, Row, row
from drylay.planner.standing_fixings import ties_under
from drylay.planner.standing_work import legs_at_work, with_legs
from drylay.planner.tile_built import BuiltTiles, TiledFrame
from drylay.planner.working import shared_rows
from drylay.work.drafts import FramedDeck, Legs, TiledDeck
from drylay.work.model import SettingOut, Work
from drylay.work.posts_out import with_posts
from drylay.work.setting_out import set_out
from drylay.work.tile_order import order_tile_work

#: Heavier stuff than this is stone or baked clay, and makes silica dust. Assumption: no wood is.
MINERAL_KG_M3 = 1500.0
#: Words by which a family's sentence speaks of silica dust: of no use where nothing is cut.
SILICA = ("silica",)
#: Words by which it speaks of a treated frame: of no use on pads.
TREATED = ("treated", "preserver", "copper")


def makes_silica(job: Job) -> bool:
    """Return whether cutting these tiles makes silica dust: they are as heavy as stone."""
    return job.rules.value("tiling.density_kg_m3") >= MINERAL_KG_M3


def of_wood(job: Job) -> bool:
    """Return whether these tiles are timber squares: of wood, and no heavier than wood is."""
    return bool(job.rules.value("surface.timber")) and not makes_silica(job)


def cautions_told(cautions: tuple[str, ...], *, silica: bool, framed: bool) -> tuple[str, ...]:
    """Return a family's cautions that bear on these tiles.

    Those on silica do not where no such dust is made, nor those on treated timber where there is
    no frame.
    """
    idle = (() if silica else SILICA) + (() if framed else TREATED)
    return tuple(text for text in cautions if not any(word in text.lower() for word in idle))


def plan_work(job: Job, built: BuiltTiles) -> Work:
    """Return how a deck of tiles is built."""
    framed, silica = built.framed, makes_silica(job)
    out = with_posts(
        set_out(built.edges, run=built.surface.run, units=job.brief.units), built.stood.raised,
        run=built.surface.run,
    )  # fmt: skip
    deck = TiledDeck(
        surface=built.surface,
        tiling=built.tiling,
        edges=built.edges,
        buying=built.buying,
        site=built.site,
        groundwork=built.groundwork,
        setting_out=out,
        framed=None if framed is None else _framed(framed, out),
        dusty=silica,
    )  # fmt: skip
    told = cautions_told(job.cautions, silica=silica and built.tiling.cut > 0,
                         framed=framed is not None)  # fmt: skip
    work = order_tile_work(deck, people=job.brief.crew.people, of_family=told)
    return with_legs(work, job.upkeep, deck.framed.legs if deck.framed else Legs())


def _framed(framed: TiledFrame, out: SettingOut) -> FramedDeck:
    stood = framed.stood
    return FramedDeck(
        edges=framed.edges,
        supports=framed.supports,
        frame=framed.frame,
        fixings=framed.fixings,
        buying=framed.buying,
        site=framed.site,
        groundwork=framed.groundwork,
        setting_out=out,
        legs=legs_at_work(stood, framed.site, ties_under(stood.raised, len(framed.frame.joists))),
    )


def rows(job: Job, built: BuiltTiles) -> list[Row]:
    """Return the decisions taken here."""
    work = built.work
    assert work is not None
    return [
        row("work.face_up", work.face_up, "", "tiles have one face to walk on", PRACTICE),
        *shared_rows(job, built, work),
    ]
