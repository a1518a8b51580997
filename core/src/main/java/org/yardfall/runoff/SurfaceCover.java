package org.yardfall.runoff;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.site.Assumption;
import org.yardfall.site.Building;
import org.yardfall.site.Crossing;
import org.yardfall.site.Site;
import org.yardfall.site.Surface;
import org.yardfall.site.Surface.Kind;

/**
 * What covers each cell, and where each roof's water comes down.
 *
 * <p>Surfaces are as the site gives them, later ones over earlier ones; where it gives none,
 * crossings are pavement. Buildings are roofs, all else lawn. A roof's water is spread evenly over
 * the cells that touch its building, the drip line, since no downspouts are given.
 *
 * @param frame the grid
 * @param kind cover by cell
 * @param roofM2 roof area in m² whose water comes down on each cell
 * @param group hydrologic soil group
 * @param assumptions what was assumed
 */
@SuppressWarnings("ArrayRecordComponent") // hot-loop arrays, deliberately shared
public record SurfaceCover(
    GridFrame frame, Kind[] kind, double[] roofM2, char group, List<Assumption> assumptions) {

  /** Keeps the list to itself. */
  public SurfaceCover {
    assumptions = List.copyOf(assumptions);
  }

  /**
   * The cover of a site. Roof water comes down on known ground where the drip line has any.
   *
   * @param ground the ground, which says where the cells lie and which are known
   */
  public static SurfaceCover of(Site site, ElevationGrid ground) {
    GridFrame frame = ground.frame();
    Kind[] kind = new Kind[frame.size()];
    Arrays.fill(kind, Kind.LAWN);
    for (Surface s : site.surfaces()) {
      CellFill.fill(s.outline(), frame, c -> kind[c] = s.kind());
    }
    List<Assumption> assumptions = new ArrayList<>();
    if (site.surfaces().isEmpty()) {
      for (Crossing c : site.crossings()) {
        CellFill.fill(c.outline(), frame, i -> kind[i] = Kind.PAVEMENT);
      }
      assumptions.add(
          new Assumption(
              "surfaces",
              "buildings are roof, walks and drives pavement, all else lawn in good condition",
              "common practice, no source"));
    } else {
      assumptions.add(
          new Assumption(
              "surfaces", "what no surface covers is lawn in good condition", "site file"));
    }
    BitSet roofs = new BitSet();
    List<BitSet> each = new ArrayList<>();
    for (Building b : site.buildings()) {
      BitSet cells = new BitSet();
      CellFill.fill(b.outline(), frame, cells::set);
      cells.andNot(roofs); // where two footprints overlap the first has the roof
      roofs.or(cells);
      each.add(cells);
      cells.stream().forEach(c -> kind[c] = Kind.ROOF);
    }
    double[] roofM2 = new double[frame.size()];
    for (BitSet cells : each) {
      drip(cells, roofs, ground, roofM2);
    }
    for (int c = 0; c < kind.length; c++) {
      if (kind[c] == Kind.ROOF && !roofs.get(c)) {
        roofM2[c] += frame.cellAreaM2(); // a roof surface without a building keeps its water
      }
    }
    if (!each.isEmpty()) {
      assumptions.add(
          new Assumption(
              "buildings",
              "roof water comes down evenly along the drip line",
              "common practice, no source; downspouts were not given"));
    }
    assumptions.add(
        new Assumption(
            "surfaces", "curve numbers for soil group " + site.soil().group(), CurveNumber.SOURCE));
    return new SurfaceCover(frame, kind, roofM2, site.soil().group(), assumptions);
  }

  private static void drip(BitSet cells, BitSet roofs, ElevationGrid ground, double[] roofM2) {
    GridFrame frame = ground.frame();
    BitSet line = new BitSet();
    for (int c = cells.nextSetBit(0); c >= 0; c = cells.nextSetBit(c + 1)) {
      for (int row = c / frame.cols() - 1; row <= c / frame.cols() + 1; row++) {
        for (int col = c % frame.cols() - 1; col <= c % frame.cols() + 1; col++) {
          if (frame.has(col, row)
              && !roofs.get(row * frame.cols() + col)
              && !Float.isNaN(ground.at(col, row))) {
            line.set(row * frame.cols() + col);
          }
        }
      }
    }
    BitSet to = line.isEmpty() ? cells : line;
    double share = cells.cardinality() * frame.cellAreaM2() / Math.max(1, to.cardinality());
    to.stream().forEach(c -> roofM2[c] += share);
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
      depth.put(k, CurveNumber.runoffDepthM(rainM, CurveNumber.of(k, group)));
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
