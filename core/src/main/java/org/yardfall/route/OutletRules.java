package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.operation.union.UnaryUnionOp;
import org.yardfall.site.Assumption;
import org.yardfall.site.Building;
import org.yardfall.site.Parcel;
import org.yardfall.site.Site;

/**
 * Where and how water may be let go, as local rules have it. They differ from town to town, so all
 * of them are settings; {@link #usual()} holds values often met and no more.
 *
 * @param fromHouseM least distance in metres of a daylight outlet from a building; 0 or more
 * @param fromLineM least distance in metres of a daylight outlet from the property line
 * @param fromRightOfWayM least distance in metres of a daylight outlet from a side of the lot that
 *     no parcel adjoins
 * @param dryWellFromHouseM least distance in metres of a dry well from a building
 * @param dryWellConductivityMS least saturated hydraulic conductivity in m/s of soil that a dry
 *     well may lie in
 * @param lidLossM head in metres that a lid takes to open and pass the flow, on top of its own
 *     elevation
 * @param pumped whether the drain's water is pumped to the outlet
 * @param pumpedToStreet whether pumped water may be let onto a street
 */
public record OutletRules(
    double fromHouseM,
    double fromLineM,
    double fromRightOfWayM,
    double dryWellFromHouseM,
    double dryWellConductivityMS,
    double lidLossM,
    boolean pumped,
    boolean pumpedToStreet) {

  /** How near in metres two outlines must run to be neighbours. */
  private static final double ADJOINING_M = 0.5;

  /** Checks the numbers. */
  public OutletRules {
    for (double m :
        new double[] {
          fromHouseM, fromLineM, fromRightOfWayM, dryWellFromHouseM, dryWellConductivityMS, lidLossM
        }) {
      if (!(m >= 0)) {
        throw new IllegalArgumentException("distances and losses of outlets are 0 or more: " + m);
      }
    }
  }

  /**
   * Values often met: daylight 10 ft from the house, 5 ft from the line, 10 ft from the street
   * side; dry wells 10 ft from the house in soil of at least 0.5 in/h; a lid that takes no head of
   * its own; drains by gravity; no pumped water onto the street.
   */
  public static OutletRules usual() {
    return new OutletRules(3.048, 1.524, 3.048, 3.048, 0.5 * 0.0254 / 3600, 0, false, false);
  }

  /** The same with another head for lids. */
  public OutletRules withLidLoss(double headM) {
    return new OutletRules(
        fromHouseM,
        fromLineM,
        fromRightOfWayM,
        dryWellFromHouseM,
        dryWellConductivityMS,
        headM,
        pumped,
        pumpedToStreet);
  }

  /** The same for water that is pumped. */
  public OutletRules withPump() {
    return new OutletRules(
        fromHouseM,
        fromLineM,
        fromRightOfWayM,
        dryWellFromHouseM,
        dryWellConductivityMS,
        lidLossM,
        true,
        pumpedToStreet);
  }

  /** The part of the lot where a pipe may come to daylight; empty where there is none. */
  public Geometry daylightZone(Site site) {
    Polygon lot = site.lot().orElseThrow().outline();
    Geometry zone = lot.buffer(-Math.max(fromLineM, site.drain().setbackM()));
    for (Building building : site.buildings()) {
      zone = zone.difference(building.outline().buffer(fromHouseM));
    }
    Geometry street = streetSides(site);
    return street.isEmpty() ? zone : zone.difference(street.buffer(fromRightOfWayM));
  }

  /**
   * The sides of the lot that no other parcel adjoins: the right-of-way. Empty where no other
   * parcel is known, since then none can be told from the other.
   */
  static Geometry streetSides(Site site) {
    Parcel lot = site.lot().orElseThrow();
    List<Geometry> others = new ArrayList<>();
    for (Parcel parcel : site.parcels()) {
      if (!parcel.id().equals(lot.id())) {
        others.add(parcel.outline().buffer(ADJOINING_M));
      }
    }
    Geometry line = lot.outline().getExteriorRing();
    return others.isEmpty()
        ? lot.outline().getFactory().createLineString()
        : line.difference(UnaryUnionOp.union(others));
  }

  /** The rules in force, for the list of what was assumed. */
  public List<Assumption> assumptions() {
    String source = "often met in local rules, which differ; common practice, no source";
    return List.of(
        new Assumption(
            "outlets.daylight",
            String.format(
                Locale.ROOT,
                "at least %.2f m from a building, %.2f m from the property line, %.2f m from the"
                    + " right-of-way",
                fromHouseM,
                fromLineM,
                fromRightOfWayM),
            source),
        new Assumption(
            "outlets.dry-well",
            String.format(
                Locale.ROOT,
                "at least %.2f m from a building, in soil of at least %.1f mm/h",
                dryWellFromHouseM,
                dryWellConductivityMS * 3.6e6),
            source),
        new Assumption(
            "outlets.lid",
            String.format(Locale.ROOT, "takes %.2f m of head above its elevation", lidLossM),
            "as set; a maker's figure is to be asked for"));
  }
}
