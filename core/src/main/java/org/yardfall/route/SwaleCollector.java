package org.yardfall.route;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.util.LineStringExtracter;
import org.locationtech.jts.simplify.DouglasPeuckerSimplifier;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.site.Site;
import org.yardfall.water.LevelledGround.Swale;

/**
 * Draws the buried drain that takes the place of a swale: along the bed that its water has now, as
 * far as it can be dug.
 */
final class SwaleCollector {

  private static final double STRAIGHTEN_M = 0.5;
  private static final double LEAST_M = 1;

  private SwaleCollector() {}

  /**
   * The drain in place of some swales.
   *
   * @param ground the ground with the swales levelled
   */
  static Collector find(Site site, ElevationGrid ground, List<Swale> swales) {
    Geometry diggable = DiggableArea.of(site, ground).area();
    List<LineString> lines = new ArrayList<>();
    List<String> why = new ArrayList<>();
    double servedM2 = 0;
    for (Swale swale : swales) {
      Geometry bed = DouglasPeuckerSimplifier.simplify(swale.bed(), STRAIGHTEN_M);
      List<LineString> dug = new ArrayList<>();
      for (Object part : LineStringExtracter.getLines(bed.intersection(diggable))) {
        if (((LineString) part).getLength() >= LEAST_M) {
          dug.add((LineString) part);
        }
      }
      if (!dug.isEmpty()) {
        lines.addAll(dug);
        servedM2 += swale.areaM2();
        why.add(
            "it takes the place of swale "
                + swale.id()
                + ", which is to be levelled and carries the water of "
                + (swale.atLeast() ? "at least " : "")
                + Figures.area(swale.areaM2())
                + " now, that from beyond the lot included");
      }
    }
    lines.sort(Comparator.comparingDouble(LineString::getLength).reversed());
    return lines.isEmpty()
        ? Collector.none(
            DrainKind.SWALE, "no-room", "there is no room for a trench along the levelled swale")
        : new Collector(DrainKind.SWALE, lines, String.join("; ", why), List.of(), servedM2);
  }

  /** What its builder must be told. */
  static List<String> cautions() {
    return List.of(
        "what ran in the swale must get into the pipe: set an inlet with a grate at the head of the"
            + " drain and in each low place; through stone and fabric alone far less gets in",
        "a swale may be part of an approved drainage plan, or lie in an easement: levelling it may"
            + " need leave, and must not send a neighbour more water or send it elsewhere");
  }
}
