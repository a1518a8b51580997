package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.operation.union.UnaryUnionOp;
import org.yardfall.site.Building;
import org.yardfall.site.OutletRules;
import org.yardfall.site.Parcel;
import org.yardfall.site.Site;

/** The part of a lot where the rules for outlets let a pipe come to daylight. */
final class OutletZone {

  /** How near in metres two outlines must run to be neighbours. */
  private static final double ADJOINING_M = 0.5;

  private OutletZone() {}

  /** The part of the lot where a pipe may come to daylight; empty where there is none. */
  static Geometry daylight(Site site, OutletRules rules) {
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
