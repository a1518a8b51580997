package org.yardfall.runoff;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.locationtech.jts.geom.Geometry;
import org.yardfall.elevation.GridFrame;
import org.yardfall.site.Assumption;
import org.yardfall.site.Site;
import org.yardfall.site.Surface.Kind;
import org.yardfall.water.CellsWithin;
import org.yardfall.water.SurfaceWater;

/**
 * What covers each cell, and where each roof's water comes down.
 *
 * <p>Surfaces are as the site gives them, later ones over earlier ones; where it gives none,
 * crossings are pavement. Buildings are roofs, all else lawn. A roof's water comes down where the
 * surface water says, along its drip line; a roof surface without a building keeps its own.
 *
 * @param frame the grid
 * @param kind cover by cell
 * @param roofM2 roof area in m² whose water comes down on each cell
 * @param group hydrologic soil group
 * @param curveNumber curve number by cover
 * @param assumptions what was assumed
 */
@SuppressWarnings("ArrayRecordComponent") // hot-loop arrays, deliberately shared
public record SurfaceCover(
    GridFrame frame,
    Kind[] kind,
    double[] roofM2,
    char group,
    Map<Kind, Double> curveNumber,
    List<Assumption> assumptions) {

  /** Keeps the collections to itself. */
  public SurfaceCover {
    curveNumber = Map.copyOf(curveNumber);
    assumptions = List.copyOf(assumptions);
  }

  /**
   * The cover of a site.
   *
   * @param water the surface water, which says where the cells lie and where roofs drip
   */
  public static SurfaceCover of(Site site, SurfaceWater water) {
    GridFrame frame = water.flow().frame();
    Kind[] kind = new Kind[frame.size()];
    Arrays.fill(kind, Kind.LAWN);
    List<Assumption> assumptions = new ArrayList<>();
    if (site.surfaces().isEmpty()) {
      site.crossings().forEach(c -> paint(kind, frame, c.outline(), Kind.PAVEMENT));
      assumptions.add(
          new Assumption(
              "surfaces",
              "buildings are roof, walks and drives pavement, all else lawn in good condition",
              "common practice, no source"));
    } else {
      site.surfaces().forEach(s -> paint(kind, frame, s.outline(), s.kind()));
      assumptions.add(
          new Assumption(
              "surfaces", "what no surface covers is lawn in good condition", "site file"));
    }
    site.buildings().forEach(b -> paint(kind, frame, b.outline(), Kind.ROOF));
    assumptions.add(
        new Assumption(
            "surfaces", "curve numbers for soil group " + site.soil().group(), CurveNumber.SOURCE));
    site.soil()
        .curveNumbers()
        .forEach(
            (cover, number) ->
                assumptions.add(
                    new Assumption(
                        "surfaces",
                        String.format(
                            Locale.ROOT,
                            "curve number %.1f for %s in place of the table's",
                            number,
                            cover.name().toLowerCase(Locale.ROOT)),
                        "site file")));
    double[] roofM2 = new double[frame.size()];
    Arrays.setAll(roofM2, c -> kind[c] == Kind.ROOF ? frame.cellAreaM2() : 0);
    return new SurfaceCover(
        frame,
        kind,
        water.roofs().spread(roofM2),
        site.soil().group(),
        CurveNumber.byCover(site.soil().group(), site.soil().curveNumbers()),
        assumptions);
  }

  private static void paint(Kind[] kind, GridFrame frame, Geometry area, Kind with) {
    for (int c : CellsWithin.of(frame, area)) {
      kind[c] = with;
    }
  }

  /** Cover of a cell. */
  public Kind at(int cell) {
    return kind[cell];
  }

  /** Area in m² of a cell's own cover from which water starts there: 0 on a roof. */
  public double openM2(int cell) {
    return kind[cell] == Kind.ROOF ? 0 : frame.cellAreaM2();
  }

  /**
   * Area in m² whose rain starts on a cell: its own, if it is no roof, and its share of roofs. Over
   * all cells this adds up to the grid's area.
   */
  public double areaM2(int cell) {
    return openM2(cell) + roofM2[cell];
  }

  /** Runoff in m³ that starts on a cell, from the runoff depth in metres by cover. */
  double runoffM3(int cell, Map<Kind, Double> depthM) {
    return openM2(cell) * depthM.get(kind[cell]) + roofM2[cell] * depthM.get(Kind.ROOF);
  }

  /** Runoff depth in metres by cover. */
  Map<Kind, Double> depthByKindM(double rainM) {
    Map<Kind, Double> depth = new EnumMap<>(Kind.class);
    for (Kind k : Kind.values()) {
      depth.put(k, CurveNumber.runoffDepthM(rainM, curveNumber.get(k)));
    }
    return depth;
  }

  /**
   * Runoff by cell as a depth of water in metres over the cell, roof water at its drip line; the
   * input for standing water.
   *
   * @param rainM rain depth in metres, 0 or more
   */
  public double[] runoffDepthM(double rainM) {
    Map<Kind, Double> byKind = depthByKindM(rainM);
    double[] depth = new double[kind.length];
    for (int c = 0; c < depth.length; c++) {
      depth[c] = runoffM3(c, byKind) / frame.cellAreaM2();
    }
    return depth;
  }
}
