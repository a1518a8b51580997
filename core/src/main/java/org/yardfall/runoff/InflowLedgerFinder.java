package org.yardfall.runoff;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Collection;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.operation.distance.DistanceOp;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.elevation.Terrain;
import org.yardfall.runoff.InflowLedger.Balance;
import org.yardfall.runoff.StretchFinder.Crossing;
import org.yardfall.runoff.StretchFinder.Stretch;
import org.yardfall.site.Site;
import org.yardfall.site.Surface.Kind;
import org.yardfall.water.DInfinity;
import org.yardfall.water.FlowField;
import org.yardfall.water.StandingWater;
import org.yardfall.water.SurfaceWater;

/**
 * Finds where and how much water crosses the property line in the design storm.
 *
 * <p>Volumes are sums of curve-number runoff over the cells; peaks are rational, each with the time
 * of concentration along its own longest path. Low spots hold back what the standing water says;
 * without it they count as full. One with an open catch basin in it lets nothing run on.
 */
public final class InflowLedgerFinder {

  /** Crossings up to so far apart along the line, in metres and in cells, are of one stretch. */
  private static final double GAP = 3;

  /** Water is not looked at more narrowly than this, in metres, to tell a thread from a sheet. */
  private static final double THREAD_M = 1;

  private final Site site;
  private final SurfaceWater water;
  private final Storm storm;
  private final FlowField flow;
  private final GridFrame frame;
  private final SurfaceCover cover;
  private final PondShare ponds;
  private final int[] order;
  private final ParcelCells parcels;
  private final BitSet lot;
  private final LineBand band;
  private final double[] runoffM3;
  private final TimeOfConcentration.Settings settings;
  private final ContributionFinder contributions;

  private InflowLedgerFinder(
      Site site,
      Terrain terrain,
      SurfaceWater water,
      Storm storm,
      Optional<StandingWater> standing) {
    this.site = site;
    this.water = water;
    this.storm = storm;
    ElevationGrid ground = terrain.ground();
    this.flow = water.flow();
    this.frame = flow.frame();
    if (!ground.frame().equals(frame)) {
      throw new IllegalArgumentException("terrain and surface water lie on different grids");
    }
    this.cover = SurfaceCover.of(site, water);
    this.order = LotFlow.downstreamOrder(flow);
    this.settings = TimeOfConcentration.Settings.of(storm);
    this.parcels = new ParcelCells(site, frame);
    this.lot = parcels.lot();
    this.band = new LineBand(site, lot, flow, water.areaM2());
    Map<Kind, Double> depth = cover.depthByKindM(storm.depthM());
    this.runoffM3 = new double[frame.size()];
    Arrays.setAll(runoffM3, c -> cover.runoffM3(c, depth));
    this.ponds = PondShare.of(water, standing, order, runoffM3);
    this.contributions =
        new ContributionFinder(
            water,
            cover,
            new CellRunoff(water, ground, cover, settings),
            ponds,
            storm,
            parcels::id);
  }

  /** A finder for a site, with what its low spots hold after the storm where that is known. */
  public static InflowLedgerFinder of(
      Site site,
      Terrain terrain,
      SurfaceWater water,
      Storm storm,
      Optional<StandingWater> standing) {
    return new InflowLedgerFinder(site, terrain, water, storm, standing);
  }

  /** The ledger of a site as it is, its low spots counted as full. */
  public static InflowLedger find(Site site, Terrain terrain, SurfaceWater water, Storm storm) {
    return of(site, terrain, water, storm, Optional.empty()).find();
  }

  /** The ledger of the site as it is; empty where no lot is asked for. */
  public InflowLedger find() {
    return drained(new BitSet(), -1).ledger();
  }

  /** Tells what a drain would take of this water. */
  public Interception interception() {
    return new Interception(this, flow, order, ponds, runoffM3, cover, water.ground().z());
  }

  /** The cells whose water comes to a drain's own. */
  BitSet takes(PondShare kept, BitSet line) {
    return kept.reachedFrom(line, lot);
  }

  GridFrame frame() {
    return frame;
  }

  /** Whether a cell is the lot's. */
  boolean onLot(int cell) {
    return lot.get(cell);
  }

  /**
   * The ledger with a drain.
   *
   * @param ledger what crosses the line with it
   * @param deliveries what each neighbour receives, in the order of their ids
   * @param captured what it collects
   * @param intakes that by cell
   * @param capturedM3 volume that it collects in m³
   * @param comesBack whether what it lets out would run onto its own lines
   * @param crossings cells at which each stretch of the ledger is crossed, by its id
   * @param water where the water goes
   */
  record Drained(
      InflowLedger ledger,
      SortedMap<String, Delivery> deliveries,
      Contribution captured,
      List<DrainEffect.Intake> intakes,
      double capturedM3,
      boolean comesBack,
      SortedMap<String, int[]> crossings,
      Led water) {}

  /**
   * Where the water goes.
   *
   * @param flow volumes by cell
   * @param gather adds up the ground above a cell
   * @param takes cells at which a drain takes water
   * @param exit cell at which a drain's water leaves the lot over the ground, or −1
   */
  record Led(LotFlow flow, ContributionFinder gather, BitSet takes, int exit) {}

  /**
   * What a neighbour receives over the ground from the lot.
   *
   * @param volumeM3 volume in m³
   * @param from the ground that sheds it, what a drain takes left out
   * @param volumePerMetreM2 greatest volume at one crossing for each metre of its width in m²
   * @param drains whether a drain's water goes there too
   */
  record Delivery(double volumeM3, Contribution from, double volumePerMetreM2, boolean drains) {}

  /**
   * The ledger with the water that reaches some cells taken away.
   *
   * @param line those cells, of the lot
   * @param outlet cell of the lot from which that water runs on over the ground, or −1
   */
  Drained drained(BitSet line, int outlet) {
    PondShare kept = ponds.drainedBy(line, water.ground().z(), flow, order, runoffM3);
    return drained(kept.reachedFrom(line, lot), kept, outlet);
  }

  /**
   * The ledger with the water of some cells taken away.
   *
   * @param takes those cells, the low spots the drain runs through among them
   * @param keepsM3 what those low spots keep in m³, by their ids
   * @param outlet cell of the lot from which that water runs on over the ground, or −1
   */
  Drained drained(BitSet takes, Map<String, Double> keepsM3, int outlet) {
    return drained(takes, ponds.keeping(keepsM3, flow, order, runoffM3), outlet);
  }

  private Drained drained(BitSet takes, PondShare kept, int outlet) {
    ContributionFinder gather = contributions.with(kept);
    LotFlow led = new LotFlow(flow, order, lot, band, runoffM3, kept, takes);
    double captured = led.takenM3();
    Contribution drain = gather.of(takes.stream().toArray(), c -> !takes.get(c));
    boolean comesBack = false;
    int exit = -1;
    if (outlet >= 0) {
      exit = led.runOn(outlet, takes);
      comesBack = exit < 0;
    }
    SortedMap<String, int[]> crossings = new TreeMap<>();
    return new Drained(
        ledger(led, gather, takes, exit, drain, crossings),
        deliveries(led, gather, takes, exit),
        drain,
        intakes(gather, takes),
        captured,
        comesBack,
        crossings,
        new Led(led, gather, takes, exit));
  }

  /** What comes to each of a drain's cells that comes to none of the others before. */
  private List<DrainEffect.Intake> intakes(ContributionFinder gather, BitSet takes) {
    return takes.stream()
        .mapToObj(
            c -> {
              Contribution part = gather.of(new int[] {c}, up -> !takes.get(up));
              return new DrainEffect.Intake(
                  x(c),
                  y(c),
                  part.areaM2(),
                  part.coefficient() * part.areaM2(),
                  part.runoff().volumeM3());
            })
        .toList();
  }

  private SortedMap<String, Delivery> deliveries(
      LotFlow led, ContributionFinder gather, BitSet line, int drainExit) {
    SortedMap<String, List<Integer>> exits = new TreeMap<>();
    for (int c = lot.nextSetBit(0); c >= 0; c = lot.nextSetBit(c + 1)) {
      if (led.leavesForGood(c) && !line.get(c)) {
        exits.computeIfAbsent(parcelId(beyond(c)), k -> new ArrayList<>()).add(c);
      }
    }
    SortedMap<String, Delivery> deliveries = new TreeMap<>();
    exits.forEach(
        (id, cells) -> {
          int[] at = cells.stream().mapToInt(c -> c).toArray();
          deliveries.put(
              id,
              new Delivery(
                  Arrays.stream(at).mapToDouble(c -> led.beenM3[c]).sum(),
                  gather.of(at, c -> !line.get(c), c -> !led.passesBy(c)),
                  Arrays.stream(at).mapToDouble(c -> led.beenM3[c]).max().orElse(0) / frame.cellM(),
                  cells.contains(drainExit)));
        });
    return deliveries;
  }

  private InflowLedger ledger(
      LotFlow led,
      ContributionFinder gather,
      BitSet line,
      int drainExit,
      Contribution drain,
      SortedMap<String, int[]> crossings) {
    List<Found> in = new ArrayList<>();
    List<Found> out = new ArrayList<>();
    double ownRain = 0;
    Map<Kind, Double> own = new EnumMap<>(Kind.class);
    if (site.lot().isPresent()) {
      StretchFinder stretches =
          new StretchFinder(
              site.lot().get().outline(), frame.cellM(), GAP * Math.max(1, frame.cellM()));
      List<Crossing> entering = new ArrayList<>();
      List<Crossing> leaving = new ArrayList<>();
      for (int c = 0; c < frame.size(); c++) {
        if (led.entersAt(c)) {
          int first = band.firstOf(c);
          entering.add(crossing(c, first, first, false));
        } else if (led.leavesForGood(c) && !line.get(c)) {
          leaving.add(crossing(c, band.lastOf(c), beyond(c), c == drainExit));
        }
        if (lot.get(c) && flow.toward()[c] != FlowField.UNKNOWN) {
          ownRain += cover.areaM2(c) * storm.depthM();
          gather.add(own, c);
        }
      }
      for (Stretch s : stretches.stretches(entering)) {
        Contribution from = gather.of(cells(s), c -> !lot.get(c) && !line.get(c));
        in.add(new Found(boundaryFlow(s, true, led.freshM3, from, 0), s));
      }
      for (Stretch s : stretches.stretches(leaving)) {
        Contribution from = gather.of(cells(s), c -> !line.get(c), c -> !led.passesBy(c));
        boolean drains = s.crossings().stream().anyMatch(c -> c.cell() == drainExit);
        out.add(
            new Found(boundaryFlow(s, false, led.beenM3, from, drains ? drain.peakM3S() : 0), s));
      }
    }
    List<BoundaryFlow> inflow = numbered(in, "I", crossings);
    List<BoundaryFlow> outflow = numbered(out, "O", crossings);
    return new InflowLedger(
        storm,
        inflow,
        outflow,
        new Balance(
            led.inflowM3,
            ownRain,
            led.outflowM3,
            led.standingM3,
            ownRain - led.ownRunoffM3,
            led.interceptedM3,
            led.heldBeyondM3,
            led.inletM3),
        CurveNumber.runoff(own, cover.group(), storm.depthM()),
        LedgerNotes.assumptions(storm, cover, settings),
        LedgerNotes.warnings(storm, inflow, outflow));
  }

  private record Found(BoundaryFlow flow, Stretch stretch) {}

  private static int[] cells(Stretch stretch) {
    return stretch.crossings().stream().mapToInt(Crossing::cell).toArray();
  }

  /** The cell onto which water gets that leaves the lot at a cell for good, −1 if none is known. */
  private int beyond(int leaving) {
    int last = band.lastOf(leaving);
    int next = flow.receiver(last);
    return next < 0 && last != leaving ? last : next;
  }

  private Crossing crossing(int cell, int near, int beyond, boolean drain) {
    int r = flow.receiver(near);
    double x = x(near);
    double y = y(near);
    Coordinate at = r < 0 ? new Coordinate(x, y) : new Coordinate((x + x(r)) / 2, (y + y(r)) / 2);
    if (near != cell) { // the end of a way beside the line
      Geometry line = site.lot().orElseThrow().outline().getBoundary();
      at = DistanceOp.nearestPoints(line, line.getFactory().createPoint(at))[0];
    }
    boolean concentrated = // m² for each metre of width: the length of slope that sheds onto it
        drain || water.areaM2()[cell] / Math.max(THREAD_M, frame.cellM()) > settings.sheetLimitM();
    double bearing = DInfinity.bearingDeg(water.filled(), flow, cell);
    return new Crossing(cell, at, parcelId(beyond), concentrated, water.areaM2()[cell], bearing);
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
        enters ? List.of() : parcels.downstream(beyond(main.cell()), flow));
  }

  /** Id of the parcel of a cell; empty where there is none, or no cell. */
  String parcelId(int cell) {
    return parcels.id(cell);
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

  private static List<BoundaryFlow> numbered(
      Collection<Found> flows, String prefix, SortedMap<String, int[]> crossings) {
    List<Found> sorted = new ArrayList<>(flows);
    sorted.sort(
        Comparator.comparing(
            Found::flow,
            Comparator.comparingDouble((BoundaryFlow f) -> -f.volumeM3())
                .thenComparingDouble(f -> -f.areaM2())
                .thenComparingDouble(f -> f.at().x)
                .thenComparingDouble(f -> f.at().y)));
    List<BoundaryFlow> named = new ArrayList<>();
    for (Found f : sorted) {
      named.add(f.flow().withId(prefix + (named.size() + 1)));
      crossings.put(named.get(named.size() - 1).id(), cells(f.stretch()));
    }
    return named;
  }
}
