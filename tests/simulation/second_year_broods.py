"""The broods of the example from October 2026 to June 2027, and when they are counted."""

from simulation.animals import Brood, Look

__all__ = ["SECOND_YEAR_BROODS"]

SECOND_YEAR_BROODS = {
    brood.name: brood
    for brood in (
        Brood(
            name="alder-04",
            hatched="2026-10-29",
            cross="BC1 slate × a set of sires",
            dams="marl or silt",
            sires="amber males, or the brothers",
            smallest=20,
            largest=34,
            counts=(
                Look(date="2026-11-21", age_days=23, how="emptied", found=1.0, doubtful=0.15),
                Look(date="2026-12-19", age_days=51, how="emptied", found=1.0),
            ),
        ),
        Brood(
            name="rowan-03",
            hatched="2026-11-08",
            cross="F2 slate × F2 slate (F3), two mothers",
            dams="peat or turf",
            sires="peat or turf",
            smallest=38,
            largest=62,
            mothers=2,
            milky=0.08,
            counts=(
                Look(date="2026-12-06", age_days=28, how="looked", found=0.4, doubtful=0.08),
                Look(date="2026-12-27", age_days=49, how="emptied", found=1.0),
            ),
        ),
        Brood(
            name="hazel-03",
            hatched="2026-11-29",
            cross="BC1 amberglass × BC1 amberglass",
            dams="taper",
            sires="taper",
            smallest=20,
            largest=34,
            counts=(Look(date="2026-12-19", age_days=20, how="emptied", found=1.0, doubtful=0.1),),
        ),
        Brood(
            name="sedge-02",
            hatched="2026-12-06",
            cross="F2 amberglass × F2 amberglass (F3)",
            dams="glim",
            sires="lamp or glim",
            smallest=16,
            largest=28,
            counts=(Look(date="2027-01-16", age_days=41, how="emptied", found=1.0),),
        ),
        Brood(
            name="alder-05",
            hatched="2026-12-30",
            cross="BC1 slate × amberglass (BC2)",
            dams="marl-f",
            sires="amber males",
            smallest=22,
            largest=36,
            counts=(
                Look(date="2027-01-13", age_days=14, how="looked", found=0.5, coarse=True),
                Look(date="2027-01-27", age_days=28, how="netted", found=0.85, doubtful=0.06),
                Look(date="2027-02-20", age_days=52, how="emptied", found=1.0),
            ),
        ),
        Brood(
            name="larch-01",
            hatched="2027-01-25",
            cross="BC1 slate × amberglass (BC2)",
            dams="sill",
            sires="amber males",
            smallest=22,
            largest=36,
            halves=True,
            counts=(
                Look(date="2027-02-24", age_days=30, how="netted", found=0.9, doubtful=0.06),
                Look(date="2027-03-06", age_days=40, how="emptied", found=1.0),
            ),
        ),
        Brood(
            name="bracken-01",
            hatched="2027-02-01",
            cross="BC1 amberglass × amberglass (BC2)",
            dams="best-f or taper-f",
            sires="cinder",
            smallest=22,
            largest=36,
            counts=(
                Look(date="2027-03-01", age_days=28, how="netted", found=0.85),
                Look(date="2027-03-23", age_days=50, how="netted", found=0.95),
            ),
        ),
        Brood(
            name="bracken-02",
            hatched="2027-03-20",
            cross="BC1 amberglass × amberglass (BC2), as the keeper had it",
            dams="best-f or taper-f",
            sires="cinder",
            smallest=24,
            largest=38,
            stray_share=(0.3, 0.9),
            counts=(
                Look(date="2027-04-17", age_days=28, how="netted", found=0.85, doubtful=0.06),
                Look(date="2027-04-25", age_days=36, how="emptied", found=1.0),
            ),
        ),
        Brood(
            name="alder-06",
            hatched="2027-04-18",
            cross="amberglass × amberglass",
            dams="hazel-03",
            sires="ember, pane or the brothers",
            smallest=20,
            largest=34,
            counts=(Look(date="2027-05-30", age_days=42, how="emptied", found=1.0),),
        ),
        Brood(
            name="sedge-03",
            hatched="2027-06-06",
            cross="F3 amberglass × a set of F2 and F3 amberglass",
            dams="sedge-02",
            sires="lamp, glim, tinder or the brothers",
            smallest=16,
            largest=28,
            counts=(Look(date="2027-08-14", age_days=69, how="emptied", found=1.0),),
        ),
        Brood(
            name="rowan-04",
            hatched="2027-05-16",
            cross="BC2 amberglass × BC2 amberglass",
            dams="beacon",
            sires="beacon",
            smallest=24,
            largest=40,
            counts=(
                Look(date="2027-06-20", age_days=35, how="emptied", found=1.0),
                Look(date="2027-08-15", age_days=91, how="emptied", found=1.0),
            ),
        ),
        Brood(
            name="bracken-03",
            hatched="2027-05-30",
            cross="BC1 amberglass × amberglass (BC2)",
            dams="best-f or taper-f",
            sires="cinder",
            smallest=20,
            largest=34,
            counts=(Look(date="2027-06-27", age_days=28, how="netted", found=0.9),),
        ),
    )
}
"""The broods of the second year, by name."""
