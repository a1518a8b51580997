package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.site.Assumption;
import org.yardfall.site.Site;
import org.yardfall.water.SurfaceWater;

/** What a plan of routes takes for granted, and what its reader must be told beside the routes. */
record PlanNotes(Site site, ElevationGrid ground, SurfaceWater water, RouteSettings settings) {

  List<Assumption> assumptions(RouteGround routeGround, LotCollectors collectors) {
    List<Assumption> all = new ArrayList<>(routeGround.assumptions());
    new FootingInfluence(site, ground).assumption().ifPresent(all::add);
    all.addAll(collectors.assumptions());
    all.add(DrainDifference.assumption());
    all.add(
        new Assumption(
            "route.lengths",
            String.format(
                Locale.ROOT,
                "ways are measured along steps to %d neighbouring cells, up to %.2f %% longer than"
                    + " straight: what an outlet is said to lack may be too much by up to %.1f mm for"
                    + " every 10 m of trunk",
                settings.neighbours(),
                100 * settings.lengthError(),
                10_000 * settings.lengthError() * site.drain().minGrade()),
            "lengths of the steps against the straight line"));
    all.add(
        new Assumption(
            "route.collectors",
            String.format(
                Locale.ROOT,
                "inflow from %.0f m2 and %.0f %% of all that arrives is worth taking; a side of the"
                    + " house is reached by %.0f m2 per metre; dry gaps up to %.0f m are bridged",
                PerimeterCollector.LEAST_INFLOW_M2,
                100 * PerimeterCollector.LEAST_SHARE,
                CurtainCollector.SIDE_M2_PER_M,
                PerimeterCollector.BRIDGE_M),
            "common practice, no source"));
    return all;
  }

  List<String> warnings(RouteGround routeGround, List<Collector> wanted) {
    List<String> all = new ArrayList<>(routeGround.warnings());
    CurtainCollector.house(site)
        .map(house -> FoundationFall.sentence(site, ground, house))
        .filter(s -> !s.isEmpty())
        .ifPresent(all::add);
    CurtainCollector.house(site)
        .map(house -> YardSlope.round(site, ground, house).sentences(site.outlets()))
        .ifPresent(all::addAll);
    OpeningFreeboard.table(site, ground, water).stream()
        .filter(row -> !row.passes())
        .map(OpeningFreeboard::sentence)
        .distinct()
        .forEach(all::add);
    all.addAll(SeepQuestion.of(site, water));
    all.addAll(RockWords.of(site));
    if (wanted.stream().allMatch(Collector::isEmpty)) {
      all.add(
          "no drain is needed on this lot as far as its surface water goes: "
              + String.join("; ", wanted.stream().map(Collector::why).toList())
              + "; water that stands all the same may be groundwater, which elevations do not show");
    }
    return all;
  }
}
