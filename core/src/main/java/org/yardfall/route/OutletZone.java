package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.operation.union.UnaryUnionOp;
import org.yardfall.site.Building;
import org.yardfall.site.OutletRules;
import org.yardfall.site.Parcel;
import org.yardfall.site.Site;

/** The part of a lot where the rules for outlets let a pipe come to daylight. */
public final class OutletZone {

  /** How near in metres two outlines must run to be neighbours. */
  private static final double ADJOINING_M = 0.5;

  /** The zone is bounded by arcs in straight stretches: so much in metres is let pass. */
  private static final double SLACK_M = 0.02;

  private OutletZone() {}

  /**
   * Which rules a place breaks at which a pipe is to come to daylight, each with the distance there
   * is and the one that is needed; empty where it may.
   */
  static List<String> faults(Site site, OutletRules rules, Coordinate at) {
    Polygon lot = site.lot().orElseThrow().outline();
    Geometry place = lot.getFactory().createPoint(at);
    if (!lot.intersects(place)) {
      return List.of(
          String.format(Locale.ROOT, "it lies %.2f m outside the lot", lot.distance(place)));
    }
    List<String> faults = new ArrayList<>();
    for (Building building : site.buildings()) {
      tooNear(faults, "building " + building.id(), building.outline(), place, rules.fromHouseM());
    }
    boolean bySetback = site.drain().setbackM() > rules.fromLineM();
    double fromLineM = Math.max(site.drain().setbackM(), rules.fromLineM());
    tooNear(
        faults,
        bySetback ? "the property line (setback)" : "the property line",
        lot.getExteriorRing(),
        place,
        fromLineM);
    Geometry street = streetSides(site);
    if (!street.isEmpty()) {
      tooNear(faults, "the right-of-way", street, place, rules.fromRightOfWayM());
    }
    return faults;
  }

  private static void tooNear(
      List<String> faults, String what, Geometry shape, Geometry place, double neededM) {
    double away = shape.distance(place);
    if (away < neededM - SLACK_M) {
      faults.add(
          String.format(
              Locale.ROOT,
              "it lies %.2f m from %s, where %.2f m are needed (%.2f m short)",
              away,
              what,
              neededM,
              neededM - away));
    }
  }

  /**
   * The part of the site's lot that keeps the distances asked of a pipe's end in the open, as a
   * polygon or multipolygon; empty where there is none. Whether the water runs on to a neighbour
   * from a place in it is another question.
   */
  public static Geometry daylight(Site site, OutletRules rules) {
    Polygon lot = site.lot().orElseThrow().outline();
    Geometry zone = lot.buffer(-Math.max(rules.fromLineM(), site.drain().setbackM()));
    for (Building building : site.buildings()) {
      zone = zone.difference(building.outline().buffer(rules.fromHouseM()));
    }
    Geometry street = streetSides(site);
    return street.isEmpty() ? zone : zone.difference(street.buffer(rules.fromRightOfWayM()));
  }

  /**
   * The sides of the lot that no other parcel adjoins: the right-of-way. Empty where no other
   * parcel is known, since then none can be told from the other.
   */
  static Geometry streetSides(Site site) {
    Parcel lot = site.lot().orElseThrow();
    List<Geometry> others = new ArrayList<>();
    for (Parcel parcel : site.neighbours()) {
      others.add(parcel.outline().buffer(ADJOINING_M));
    }
    Geometry line = lot.outline().getExteriorRing();
    return others.isEmpty()
        ? lot.outline().getFactory().createLineString()
        : line.difference(UnaryUnionOp.union(others));
  }
}
