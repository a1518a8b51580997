package org.yardfall.route;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.util.LineStringExtracter;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.site.Assumption;
import org.yardfall.site.Building;
import org.yardfall.site.Outlet;
import org.yardfall.site.Seep;
import org.yardfall.site.Site;

/**
 * Draws the interceptor above a wet patch that the user saw: just uphill of it, along the contour
 * but for the fall that the pipe needs, and deep enough to reach the soil that bears the water. An
 * interceptor dries the ground downslope of it and hardly any above, so a line below the patch is
 * of no use ({@code common practice, no source}).
 */
final class UphillInterceptor {

  /** Distance in metres of the line above the patch's upper edge. */
  static final double ABOVE_M = 1;

  /** The line reaches so far past the patch on each side, in metres. */
  static final double OVERLAP_M = 1;

  /** On flatter ground the surface does not tell from which side the water comes. */
  static final double LEAST_SLOPE = 0.01;

  /** Depth in metres to water-bearing soil where no test pit has shown it. */
  static final double ASSUMED_DEPTH_M = 0.5;

  /** A patch this near a wall, in metres, wets the footing: the line goes below the footing. */
  private static final double AT_FOOTING_M = 1;

  /** How far below the footing's underside the pipe then lies at least, in metres. */
  private static final double BELOW_FOOTING_M = 0.05;

  private final Site site;
  private final ElevationGrid ground;

  UphillInterceptor(Site site, ElevationGrid ground) {
    this.site = site;
    this.ground = ground;
  }

  /** Depth in metres to which the line above a patch must reach. */
  static double depthM(Seep seep) {
    return seep.waterDepthM().orElse(ASSUMED_DEPTH_M);
  }

  /**
   * The interceptor above the site's wet patches.
   *
   * @param extraM further uphill in metres than usual, where a footing is too near
   */
  Collector find(double extraM) {
    Geometry diggable = DiggableArea.of(site, ground).area();
    List<LineString> lines = new ArrayList<>();
    List<String> serves = new ArrayList<>();
    List<String> why = new ArrayList<>();
    List<String> whyNot = new ArrayList<>();
    for (Seep seep : site.seeps()) {
      UphillSide side = UphillSide.of(seep, ground);
      if (!(side.slope() >= LEAST_SLOPE)) {
        whyNot.add(
            String.format(
                Locale.ROOT,
                "the ground round wet patch %s is flatter than %.0f %%, so it does not tell from"
                    + " which side the water comes: have test pits dug on each side",
                seep.id(),
                100 * LEAST_SLOPE));
        continue;
      }
      LineString whole =
          side.line(ABOVE_M + extraM, OVERLAP_M, site.drain().minGrade(), outlet(seep));
      List<LineString> dug = dug(whole, diggable);
      if (dug.isEmpty()) {
        whyNot.add("there is no room for a trench uphill of wet patch " + seep.id());
        continue;
      }
      lines.addAll(dug);
      serves.add(seep.id());
      why.add(
          String.format(
              Locale.ROOT,
              "water comes out of the ground at wet patch %s: the line lies %.1f m uphill of it,"
                  + " where the ground rises %.1f %%, and reaches water-bearing soil %.2f m down",
              seep.id(),
              ABOVE_M + extraM,
              100 * side.slope(),
              depthM(seep)));
    }
    lines.sort(Comparator.comparingDouble(LineString::getLength).reversed());
    why.addAll(whyNot);
    return lines.isEmpty()
        ? Collector.none(DrainKind.INTERCEPTOR, "no-uphill-line", String.join("; ", whyNot))
        : new Collector(DrainKind.INTERCEPTOR, lines, String.join("; ", why), serves, 0);
  }

  /** Where the water is likely to be let go; the patch itself where no outlet was given. */
  private Coordinate outlet(Seep seep) {
    return site.outlets().stream()
        .map(Outlet::at)
        .min(Comparator.comparingDouble(at -> seep.shape().distance(point(seep, at))))
        .orElseGet(() -> seep.shape().getCentroid().getCoordinate());
  }

  private static Geometry point(Seep seep, Coordinate at) {
    return seep.shape().getFactory().createPoint(at);
  }

  private static List<LineString> dug(LineString whole, Geometry diggable) {
    List<LineString> parts = new ArrayList<>();
    for (Object part : LineStringExtracter.getLines(whole.intersection(diggable))) {
      if (((LineString) part).getLength() >= Stubs.LEAST_M) {
        parts.add((LineString) part);
      }
    }
    return parts;
  }

  /** The ground on which the interceptor is planned: its pipe must reach the water. */
  RouteGround on(RouteGround plain) {
    List<Zone> deep = new ArrayList<>();
    FootingInfluence footing = new FootingInfluence(site, ground);
    double outside = site.drain().pipeOutsideM();
    for (Seep seep : site.seeps()) {
      UphillSide side = UphillSide.of(seep, ground);
      if (!(side.slope() >= LEAST_SLOPE)) {
        continue;
      }
      Geometry patch = UphillSide.patch(seep);
      double width = patch.getEnvelopeInternal().getDiameter();
      Area strip = Area.of(side.strip(ABOVE_M + width + 2 * OVERLAP_M));
      deep.add(
          new Zone("", strip, Station.Span.OPEN, OptionalDouble.empty(), depthM(seep) - outside));
      for (Building building : site.buildings()) {
        if (building.outline().isWithinDistance(patch, AT_FOOTING_M)) {
          double top = footing.undersideM(building) - BELOW_FOOTING_M + outside;
          deep.add(new Zone("", strip, Station.Span.OPEN, OptionalDouble.of(top), 0));
        }
      }
    }
    return plain.with(deep);
  }

  /** What was assumed about the depth of the water. */
  List<Assumption> assumptions() {
    return site.seeps().stream()
        .filter(seep -> seep.waterDepthM().isEmpty())
        .map(
            seep ->
                new Assumption(
                    "seeps." + seep.id() + ".water-depth",
                    String.format(
                        Locale.ROOT,
                        "%.2f m to water-bearing soil just uphill of the patch; needs a test pit",
                        ASSUMED_DEPTH_M),
                    "40 to 50 cm is where the first line is usually laid: common practice, no"
                        + " source"))
        .toList();
  }

  /** What its builder must be told. */
  static String caution() {
    return "the interceptor needs a test pit before it is dug: just uphill of the wet patch, as deep"
        + " as the trench, to see at which depth water enters and from which side; how much it will"
        + " carry is not known from the surface";
  }
}
