package org.yardfall.runoff;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.operation.distance.DistanceOp;
import org.yardfall.elevation.GridFrame;
import org.yardfall.runoff.StretchFinder.Crossing;
import org.yardfall.runoff.StretchFinder.Stretch;
import org.yardfall.water.DInfinity;
import org.yardfall.water.FlowField;
import org.yardfall.water.SurfaceWater;

/** Finds the stretches of a lot's property line over which water comes and goes, largest first. */
final class BoundaryFlowFinder {

  /** Crossings up to so far apart along the line, in metres and in cells, are of one stretch. */
  private static final double GAP = 3;

  /** Water is not looked at more narrowly than this, in metres, to tell a thread from a sheet. */
  private static final double THREAD_M = 1;

  private final Polygon outline;
  private final SurfaceWater water;
  private final FlowField flow;
  private final GridFrame frame;
  private final ParcelCells parcels;
  private final BitSet lot;
  private final LineBand band;
  private final double sheetLimitM;
  private final StretchFinder stretches;

  /**
   * A finder for a lot.
   *
   * @param parcels whose each cell is, the lot's among them
   * @param band where water comes over the line for good
   * @param sheetLimitM length of slope in metres up to which its water runs as a sheet
   */
  BoundaryFlowFinder(
      Polygon outline, SurfaceWater water, ParcelCells parcels, LineBand band, double sheetLimitM) {
    this.outline = outline;
    this.water = water;
    this.flow = water.flow();
    this.frame = flow.frame();
    this.parcels = parcels;
    this.lot = parcels.lot();
    this.band = band;
    this.sheetLimitM = sheetLimitM;
    this.stretches = new StretchFinder(outline, frame.cellM(), GAP * Math.max(1, frame.cellM()));
  }

  /**
   * What crosses a stretch of the line.
   *
   * @param flow the stretch and its water
   * @param cells the cells at which it crosses
   */
  @SuppressWarnings("ArrayRecordComponent") // read only
  record Crossed(BoundaryFlow flow, int[] cells) {}

  /** Where water comes onto the lot that has not been on it; none of a drain counts. */
  List<Crossed> inward(InflowLedgerFinder.Led led) {
    List<Crossing> entering = new ArrayList<>();
    for (int c = 0; c < frame.size(); c++) {
      if (band.entersAt(c)) {
        int first = band.firstOf(c);
        entering.add(crossing(c, first, first, false));
      }
    }
    List<Crossed> found = new ArrayList<>();
    for (Stretch s : stretches.stretches(entering)) {
      int[] cells = cells(s);
      Contribution from = led.gather().of(cells, c -> !lot.get(c) && !led.takes().get(c));
      found.add(new Crossed(boundaryFlow(s, true, led.flow().freshM3, from, 0), cells));
    }
    return numbered(found, "I");
  }

  /**
   * Where water leaves the lot for good.
   *
   * @param drainPeakM3S greatest flow of a drain whose water leaves over the ground
   */
  List<Crossed> outward(InflowLedgerFinder.Led led, double drainPeakM3S) {
    List<Crossing> leaving = new ArrayList<>();
    for (int c = lot.nextSetBit(0); c >= 0; c = lot.nextSetBit(c + 1)) {
      if (band.leavesForGood(c) && !led.takes().get(c)) {
        leaving.add(crossing(c, band.lastOf(c), band.beyond(c), c == led.exit()));
      }
    }
    List<Crossed> found = new ArrayList<>();
    for (Stretch s : stretches.stretches(leaving)) {
      int[] cells = cells(s);
      Contribution from = led.gather().of(cells, c -> !led.takes().get(c), c -> !band.passesBy(c));
      boolean drains = s.crossings().stream().anyMatch(c -> c.cell() == led.exit());
      found.add(
          new Crossed(
              boundaryFlow(s, false, led.flow().beenM3, from, drains ? drainPeakM3S : 0), cells));
    }
    return numbered(found, "O");
  }

  private static int[] cells(Stretch stretch) {
    return stretch.crossings().stream().mapToInt(Crossing::cell).toArray();
  }

  private Crossing crossing(int cell, int near, int beyond, boolean drain) {
    int r = flow.receiver(near);
    double x = x(near);
    double y = y(near);
    Coordinate at = r < 0 ? new Coordinate(x, y) : new Coordinate((x + x(r)) / 2, (y + y(r)) / 2);
    if (near != cell) { // the end of a way beside the line
      Geometry line = outline.getBoundary();
      at = DistanceOp.nearestPoints(line, line.getFactory().createPoint(at))[0];
    }
    boolean concentrated = // m² for each metre of width: the length of slope that sheds onto it
        drain || water.areaM2()[cell] / Math.max(THREAD_M, frame.cellM()) > sheetLimitM;
    double bearing = DInfinity.bearingDeg(water.filled(), flow, cell);
    return new Crossing(cell, at, parcels.id(beyond), concentrated, water.areaM2()[cell], bearing);
  }

  private BoundaryFlow boundaryFlow(
      Stretch stretch, boolean enters, double[] volumeM3, Contribution from, double drainPeakM3S) {
    double volume = 0;
    double east = 0;
    double north = 0;
    Crossing main = stretch.middle();
    for (Crossing c : stretch.crossings()) {
      volume += volumeM3[c.cell()];
      double bearing = Math.toRadians(c.bearingDeg());
      if (!Double.isNaN(bearing)) {
        east += c.weight() * Math.sin(bearing);
        north += c.weight() * Math.cos(bearing);
      }
    }
    return new BoundaryFlow(
        "",
        enters,
        main.neighbour(),
        stretch.line(),
        main.at(),
        (Math.toDegrees(Math.atan2(east, north)) + 360) % 360,
        stretch.widthM(),
        from.areaM2(),
        from.atLeast(),
        volume,
        from.peakM3S() + drainPeakM3S,
        words(from.runoff()),
        main.concentrated(),
        from.areaByParcelM2(),
        from.runoff(),
        from.time(),
        from.intensityMS(),
        from.coefficient(),
        enters ? List.of() : parcels.downstream(band.beyond(main.cell()), flow));
  }

  private double x(int cell) {
    return frame.x(cell % frame.cols());
  }

  private double y(int cell) {
    return frame.y(cell / frame.cols());
  }

  private static String words(CurveNumber.Runoff runoff) {
    return runoff.parts().stream()
        .sorted(Comparator.comparingDouble(p -> -p.areaM2()))
        .map(
            p ->
                p.kind().name().toLowerCase(Locale.ROOT)
                    + String.format(Locale.ROOT, " %.0f m2", p.areaM2()))
        .collect(Collectors.joining(", "));
  }

  private static List<Crossed> numbered(List<Crossed> flows, String prefix) {
    flows.sort(
        Comparator.comparing(
            Crossed::flow,
            Comparator.comparingDouble((BoundaryFlow f) -> -f.volumeM3())
                .thenComparingDouble(f -> -f.areaM2())
                .thenComparingDouble(f -> f.at().x)
                .thenComparingDouble(f -> f.at().y)));
    List<Crossed> named = new ArrayList<>();
    for (Crossed f : flows) {
      named.add(new Crossed(f.flow().withId(prefix + (named.size() + 1)), f.cells()));
    }
    return named;
  }
}
