package org.yardfall.water;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.Locale;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.elevation.Terrain;
import org.yardfall.site.LevelledSwale;
import org.yardfall.site.Site;

/**
 * Levels swales: fills each up to the smooth surface that is stretched between the ground all round
 * its outline (Laplace's equation with that ground as its boundary, solved by relaxation). Ground
 * is only ever raised. Where a swale goes on beyond its outline, the fill runs out toward its bed.
 */
public final class SwaleLeveller {

  /** The surface is found when no cell of it moves by more than this, in metres. */
  private static final double STILL_M = 1e-6;

  /** More rounds than any swale of a yard takes. */
  private static final int MOST_ROUNDS = 100_000;

  /** Over-relaxation, which reaches the same surface in fewer rounds. */
  private static final double OVER = 1.7;

  /** A cell raised by less, in metres, is as it was. */
  private static final double RAISED_M = 0.0005;

  /** Of a cell whose water comes through the swale, and of one whose does not. */
  private static final byte COMES = 1;

  private static final byte PASSES_BY = 2;

  private static final GeometryFactory FACTORY = new GeometryFactory();

  private final Terrain before;
  private final SurfaceWater water;
  private final GridFrame frame;
  private final float[] z;
  private final List<AlteredCell> cells = new ArrayList<>();
  private final List<String> warnings = new ArrayList<>();

  private SwaleLeveller(Terrain before, SurfaceWater water) {
    this.before = before;
    this.water = water;
    this.frame = before.ground().frame();
    this.z = before.ground().z().clone();
  }

  /**
   * The ground with the site's swales levelled.
   *
   * @param before the ground as it is
   * @param water its surface water
   */
  public static LevelledGround level(Terrain before, SurfaceWater water, Site site) {
    return new SwaleLeveller(before, water).level(site);
  }

  private LevelledGround level(Site site) {
    List<LevelledGround.Swale> swales = new ArrayList<>();
    for (LevelledSwale swale : site.levelled()) {
      int[] within = CellsWithin.of(frame, swale.outline());
      if (within.length == 0) {
        warnings.add("swale " + swale.id() + " lies off the known ground and is not levelled");
        continue;
      }
      boolean beyond =
          site.lot().isPresent()
              && !site.lot().get().outline().buffer(frame.cellM()).covers(swale.outline());
      if (beyond) {
        warnings.add(
            "swale "
                + swale.id()
                + " is to be levelled beyond the lot too: that ground is not the owner's to fill");
      }
      swales.add(fill(swale, within));
    }
    Terrain after =
        new Terrain(
            new ElevationGrid(frame, z),
            before.sources(),
            before.accuracyM(),
            before.support(),
            before.accuracyStated(),
            before.stepM(),
            before.verticalDatum(),
            before.assumptions(),
            joined(before.warnings()));
    return new LevelledGround(before, water, after, swales, cells);
  }

  private List<String> joined(List<String> own) {
    List<String> all = new ArrayList<>(own);
    all.addAll(warnings);
    return all;
  }

  private LevelledGround.Swale fill(LevelledSwale swale, int[] within) {
    double[] level = surface(within);
    double fill = 0;
    double deepest = 0;
    int raised = 0;
    for (int i = 0; i < within.length; i++) {
      int cell = within[i];
      double by = level[i] - z[cell];
      if (by > RAISED_M) {
        cells.add(new AlteredCell(swale.id(), cell, z[cell], (float) level[i]));
        z[cell] = (float) level[i];
        fill += by * frame.cellAreaM2();
        deepest = Math.max(deepest, by);
        raised++;
      }
    }
    List<Integer> bed = bed(within);
    warnings.add(
        String.format(
            Locale.ROOT,
            "swale %s counts as levelled: %d cells raised by up to %.2f m, %.1f m3 of fill; all"
                + " that follows but the swale's own water is of the ground so levelled",
            swale.id(),
            raised,
            deepest,
            fill));
    return new LevelledGround.Swale(
        swale.id(),
        FACTORY.createLineString(bed.stream().map(frame::centre).toArray(Coordinate[]::new)),
        drainsM2(within),
        Arrays.stream(within).anyMatch(water.edge()::get),
        fill,
        deepest);
  }

  /** The surface over some cells that hangs from the ground round them. */
  private double[] surface(int[] within) {
    int[] number = new int[frame.size()];
    Arrays.fill(number, -1);
    for (int i = 0; i < within.length; i++) {
      number[within[i]] = i;
    }
    double[] level = new double[within.length];
    for (int i = 0; i < within.length; i++) {
      level[i] = z[within[i]];
    }
    double moved = Double.POSITIVE_INFINITY;
    for (int round = 0; round < MOST_ROUNDS && moved > STILL_M; round++) {
      moved = 0;
      for (int i = 0; i < within.length; i++) {
        double mean = mean(within[i], number, level);
        if (!Double.isNaN(mean)) {
          double by = OVER * (mean - level[i]);
          level[i] += by;
          moved = Math.max(moved, Math.abs(by));
        }
      }
    }
    return level;
  }

  /** Mean of a cell's known neighbours at its sides. */
  private double mean(int cell, int[] number, double[] level) {
    double sum = 0;
    int known = 0;
    int row = cell / frame.cols();
    int col = cell - row * frame.cols();
    for (int k = 0; k < Neighbours.COUNT; k += 2) {
      int col2 = col + Neighbours.DCOL[k];
      int row2 = row + Neighbours.DROW[k];
      if (frame.has(col2, row2)) {
        int n = row2 * frame.cols() + col2;
        double there = number[n] >= 0 ? level[number[n]] : z[n];
        if (!Double.isNaN(there)) {
          sum += there;
          known++;
        }
      }
    }
    return known == 0 ? Double.NaN : sum / known;
  }

  /** Ground whose water comes through the swale, be it in and out of it several times. */
  private double drainsM2(int[] within) {
    byte[] comes = new byte[frame.size()];
    for (int cell : within) {
      comes[cell] = COMES;
    }
    int[] way = new int[frame.size()];
    int cells = 0;
    for (int start = 0; start < comes.length; start++) {
      int length = 0;
      int cell = start;
      while (cell >= 0 && comes[cell] == 0) {
        way[length++] = cell;
        cell = water.flow().receiver(cell);
      }
      byte all = cell < 0 ? PASSES_BY : comes[cell];
      while (length > 0) {
        comes[way[--length]] = all;
      }
      boolean known = water.flow().toward()[start] != FlowField.UNKNOWN;
      cells += known && comes[start] == COMES ? 1 : 0;
    }
    return cells * frame.cellAreaM2();
  }

  /** The cells of the swale along which most of its water runs now, downstream. */
  private List<Integer> bed(int[] within) {
    BitSet inside = new BitSet();
    int end = within[0];
    for (int cell : within) {
      inside.set(cell);
      end = water.areaM2()[cell] > water.areaM2()[end] ? cell : end;
    }
    List<Integer> bed = new ArrayList<>();
    for (int cell = end; cell >= 0; cell = above(cell, inside)) {
      bed.add(0, cell);
      inside.clear(cell);
    }
    if (bed.size() == 1) {
      bed.add(end);
    }
    return bed;
  }

  /** The cell inside that brings a cell most of its water, or −1. */
  private int above(int cell, BitSet inside) {
    int most = -1;
    int row = cell / frame.cols();
    int col = cell - row * frame.cols();
    for (int k = 0; k < Neighbours.COUNT; k++) {
      int col2 = col + Neighbours.DCOL[k];
      int row2 = row + Neighbours.DROW[k];
      if (frame.has(col2, row2)) {
        int n = row2 * frame.cols() + col2;
        boolean brings = inside.get(n) && water.flow().receiver(n) == cell;
        if (brings && (most < 0 || water.areaM2()[n] > water.areaM2()[most])) {
          most = n;
        }
      }
    }
    return most;
  }
}
