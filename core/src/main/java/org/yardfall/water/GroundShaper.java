package org.yardfall.water;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.Locale;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.linearref.LengthIndexedLine;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.site.Assumption;
import org.yardfall.site.Building;
import org.yardfall.site.FlowOpening;
import org.yardfall.site.Site;

/**
 * Puts the buildings into the flow and cuts culverts and curb cuts through what the elevation shows
 * as closed. Drives and walks raise nothing.
 *
 * <p>A building is a block higher than the ground at its wall, whatever the elevation shows there:
 * a void, a slope drawn across it, or the roof itself. An opening lowers the cells along its line
 * to a straight bed between its inverts and never raises one.
 */
final class GroundShaper {

  /** Height of a building's block over the highest ground or roof at it, in metres. */
  private static final float BLOCK_M = 3;

  /** Cells from a downspout, drawn on its wall or within, to the ground beside it at most. */
  private static final int DOWNSPOUT_CELLS = 3;

  private static final double DEEPEST_CUT_M = 6;
  private static final double LONGEST_CUT_M = 100;
  private static final double ROOF_SHOWS_M = 1.5;
  private static final double HOLE_SHOWS_M = 0.5;

  private final GridFrame frame;
  private final float[] before;
  private final float[] z;
  private final RoofRunoff roofs = new RoofRunoff();
  private final List<AlteredCell> altered = new ArrayList<>();
  private final List<Assumption> assumptions = new ArrayList<>();
  private final List<String> warnings = new ArrayList<>();

  private GroundShaper(ElevationGrid ground, boolean changes) {
    frame = ground.frame();
    before = ground.z();
    z = changes ? before.clone() : before;
  }

  /** The ground with the site's buildings and openings. */
  static ShapedGround shape(ElevationGrid ground, Site site) {
    boolean changes = !site.buildings().isEmpty() || !site.openings().isEmpty();
    GroundShaper shaper = new GroundShaper(ground, changes);
    shaper.raise(site.buildings());
    shaper.cut(site.openings());
    return new ShapedGround(
        new ElevationGrid(shaper.frame, shaper.z),
        shaper.roofs,
        shaper.altered,
        shaper.assumptions,
        shaper.warnings);
  }

  private void raise(List<Building> buildings) {
    BitSet roofed = new BitSet();
    List<int[]> footprints = new ArrayList<>();
    for (Building building : buildings) {
      int[] cells =
          Arrays.stream(CellsWithin.of(frame, building.outline()))
              .filter(c -> !roofed.get(c))
              .toArray();
      for (int c : cells) {
        roofed.set(c);
      }
      footprints.add(cells);
    }
    int standing = 0;
    int piped = 0;
    int showing = 0;
    int hollow = 0;
    for (int b = 0; b < footprints.size(); b++) {
      int[] cells = footprints.get(b);
      int[] drip = dripLine(cells, roofed);
      double step = median(cells) - median(drip);
      showing += step > ROOF_SHOWS_M ? 1 : 0;
      hollow += step < -HOLE_SHOWS_M ? 1 : 0;
      if (raise(cells, drip)) {
        standing++;
        int[] downspouts = downspoutCells(buildings.get(b), roofed);
        piped += downspouts.length > 0 ? 1 : 0;
        roofs.add(cells, downspouts.length > 0 ? downspouts : drip);
      }
    }
    if (standing > 0) {
      assumptions.add(
          new Assumption(
              "buildings",
              "water goes round "
                  + standing
                  + (standing == 1 ? " building; " : " buildings; ")
                  + drainage(standing, piped),
              "common practice, no source"));
    }
    if (showing > 0) {
      warnings.add(
          showing
              + " buildings stand in the elevation as roofs: it is a surface model, not bare"
              + " ground, and may hold trees, cars and fences too");
    }
    if (hollow > 0) {
      warnings.add(
          hollow
              + " buildings lie in hollows of the elevation more than "
              + HOLE_SHOWS_M
              + " m deep, left where they were taken out of it");
    }
  }

  private static String drainage(int standing, int piped) {
    String evenly = "roofs drain evenly to the drip line";
    if (piped == 0) {
      return "their " + evenly;
    }
    String given = "the roofs of " + piped + " drain in equal shares to their downspouts";
    return piped == standing ? given : given + ", the other " + evenly;
  }

  /** The cells into which a building's downspouts let out. */
  private int[] downspoutCells(Building building, BitSet roofed) {
    List<Integer> cells = new ArrayList<>();
    for (Coordinate at : building.downspouts()) {
      int c = nearestOpen(at, roofed);
      if (c >= 0) {
        cells.add(c);
      } else {
        warnings.add(
            "a downspout of building "
                + building.id()
                + " is left out: there is no known ground beside it");
      }
    }
    return cells.stream().mapToInt(c -> c).toArray();
  }

  /** The known cell without a roof whose centre is nearest to a place on or beside the wall. */
  private int nearestOpen(Coordinate at, BitSet roofed) {
    int reach = DOWNSPOUT_CELLS;
    int nearest = -1;
    double leastM = Double.POSITIVE_INFINITY;
    for (int row = frame.row(at.y) - reach; row <= frame.row(at.y) + reach; row++) {
      for (int col = frame.col(at.x) - reach; col <= frame.col(at.x) + reach; col++) {
        int c = row * frame.cols() + col;
        if (frame.has(col, row) && !roofed.get(c) && !Float.isNaN(before[c])) {
          double distanceM = at.distance(frame.centre(c));
          if (distanceM < leastM) {
            nearest = c;
            leastM = distanceM;
          }
        }
      }
    }
    return nearest;
  }

  private int[] dripLine(int[] roof, BitSet roofed) {
    BitSet drip = new BitSet();
    for (int c : roof) {
      int row = c / frame.cols();
      int col = c - row * frame.cols();
      for (int k = 0; k < Neighbours.COUNT; k++) {
        int col2 = col + Neighbours.DCOL[k];
        int row2 = row + Neighbours.DROW[k];
        int n = row2 * frame.cols() + col2;
        if (frame.has(col2, row2) && !roofed.get(n) && !Float.isNaN(before[n])) {
          drip.set(n);
        }
      }
    }
    return drip.stream().toArray();
  }

  private boolean raise(int[] roof, int[] drip) {
    float top = Float.NEGATIVE_INFINITY;
    for (int[] cells : List.of(roof, drip)) {
      for (int c : cells) {
        top = before[c] > top ? before[c] : top;
      }
    }
    if (top == Float.NEGATIVE_INFINITY) {
      return false; // beyond the known ground
    }
    for (int c : roof) {
      z[c] = top + BLOCK_M;
    }
    return roof.length > 0;
  }

  private double median(int[] cells) {
    double[] known =
        Arrays.stream(cells)
            .mapToDouble(c -> before[c])
            .filter(v -> !Double.isNaN(v))
            .sorted()
            .toArray();
    return known.length == 0 ? Double.NaN : known[known.length / 2];
  }

  private void cut(List<FlowOpening> openings) {
    for (FlowOpening opening : openings) {
      cut(opening);
    }
    if (!altered.isEmpty()) {
      assumptions.add(
          new Assumption(
              "openings",
              altered.size()
                  + " cells lowered to the beds of openings, none by more than "
                  + DEEPEST_CUT_M
                  + " m or over more than "
                  + LONGEST_CUT_M
                  + " m",
              "common practice, no source"));
    }
  }

  private void cut(FlowOpening opening) {
    String name = word(opening) + " " + opening.id();
    double lengthM = opening.line().getLength();
    Coordinate up = opening.line().getCoordinateN(0);
    Coordinate down = opening.line().getCoordinateN(opening.line().getNumPoints() - 1);
    double upM = opening.invertUpM().orElse(groundAt(up));
    double downM = opening.invertDownM().orElse(groundAt(down));
    if (Double.isNaN(upM) || Double.isNaN(downM)) {
      warnings.add(name + " is not cut: an end lies off the known ground and has no invert");
      return;
    }
    if (lengthM > LONGEST_CUT_M) {
      warnings.add(
          String.format(
              Locale.ROOT,
              "%s is not cut: %.0f m is longer than %.0f m",
              name,
              lengthM,
              LONGEST_CUT_M));
      return;
    }
    if (downM > upM) {
      warnings.add(String.format(Locale.ROOT, "%s rises downstream by %.2f m", name, downM - upM));
    }
    List<AlteredCell> cells = bed(opening, lengthM, upM, downM);
    double deepest = cells.stream().mapToDouble(a -> before[a.cell()] - a.afterM()).max().orElse(0);
    if (deepest > DEEPEST_CUT_M) {
      warnings.add(
          String.format(
              Locale.ROOT,
              "%s is not cut: it would lie %.1f m deep, more than %.0f m; check its inverts",
              name,
              deepest,
              DEEPEST_CUT_M));
      return;
    }
    for (AlteredCell cell : cells) {
      z[cell.cell()] = cell.afterM();
    }
    altered.addAll(cells);
  }

  private List<AlteredCell> bed(FlowOpening opening, double lengthM, double upM, double downM) {
    LengthIndexedLine line = new LengthIndexedLine(opening.line());
    int steps = Math.max(1, (int) Math.ceil(lengthM / frame.cellM() * 4));
    List<AlteredCell> cells = new ArrayList<>();
    BitSet seen = new BitSet();
    for (int i = 0; i <= steps; i++) {
      double share = (double) i / steps;
      Coordinate at = line.extractPoint(lengthM * share);
      int c = frame.index(at.x, at.y);
      if (c >= 0 && !seen.get(c)) {
        seen.set(c);
        float bedM = (float) (upM + (downM - upM) * share);
        if (!(z[c] <= bedM)) {
          cells.add(new AlteredCell(opening.id(), c, z[c], bedM));
        }
      }
    }
    return cells;
  }

  private double groundAt(Coordinate at) {
    int c = frame.index(at.x, at.y);
    return c < 0 ? Double.NaN : before[c];
  }

  private static String word(FlowOpening opening) {
    return opening.kind() == FlowOpening.Kind.CULVERT ? "culvert" : "curb cut";
  }
}
