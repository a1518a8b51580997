package org.yardfall.runoff;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.elevation.Terrain;
import org.yardfall.runoff.BoundaryFlowFinder.Crossed;
import org.yardfall.runoff.InflowLedger.Balance;
import org.yardfall.site.Site;
import org.yardfall.site.Surface.Kind;
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
  private final Optional<BoundaryFlowFinder> across;
  private final double[] runoffM3;
  private final TimeOfConcentration.Settings settings;
  private final List<String> standsAcross;
  private final ContributionFinder contributions;
  private Drained undrained;

  private InflowLedgerFinder(
      Site site,
      Terrain terrain,
      SurfaceWater water,
      Storm storm,
      Optional<StandingWater> standing) {
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
    Upstream upstream = new Upstream(flow);
    this.band = new LineBand(site, lot, flow, order, upstream, water.areaM2());
    this.across =
        site.lot()
            .map(
                own ->
                    new BoundaryFlowFinder(
                        own.outline(), water, parcels, band, settings.sheetLimitM()));
    Map<Kind, Double> depth = cover.depthByKindM(storm.depthM());
    this.runoffM3 = new double[frame.size()];
    Arrays.setAll(runoffM3, c -> cover.runoffM3(c, depth));
    this.ponds = PondShare.of(water, standing, order, runoffM3);
    this.standsAcross = standing.map(s -> StandingAcross.notes(s, ground, lot)).orElse(List.of());
    this.contributions =
        new ContributionFinder(
            water,
            cover,
            new CellRunoff(water, ground, cover, settings),
            ponds,
            storm,
            parcels,
            upstream);
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
    return undrained().ledger().withWarnings(standsAcross);
  }

  /** The same with all that is known beside it. */
  synchronized Drained undrained() {
    if (undrained == null) {
      undrained = drained(new BitSet(), -1);
    }
    return undrained;
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
    LotFlow flows = new LotFlow(flow, order, lot, band, runoffM3, kept, takes);
    double captured = flows.takenM3();
    Contribution drain = gather.of(takes.stream().toArray(), c -> !takes.get(c));
    int exit = outlet >= 0 ? flows.runOn(outlet, takes) : -1;
    boolean comesBack = outlet >= 0 && exit < 0;
    Led led = new Led(flows, gather, takes, exit);
    List<Crossed> in = across.map(line -> line.inward(led)).orElse(List.of());
    List<Crossed> out = across.map(line -> line.outward(led, drain.peakM3S())).orElse(List.of());
    SortedMap<String, int[]> crossings = new TreeMap<>();
    Stream.of(in, out)
        .flatMap(List::stream)
        .forEach(crossed -> crossings.put(crossed.flow().id(), crossed.cells()));
    return new Drained(
        ledger(flows, in, out),
        deliveries(led),
        drain,
        intakes(gather, takes),
        captured,
        comesBack,
        crossings,
        led);
  }

  /** What comes to each of a drain's cells that comes to none of the others before. */
  private List<DrainEffect.Intake> intakes(ContributionFinder gather, BitSet takes) {
    return takes.stream()
        .mapToObj(
            c -> {
              GroundSum part = gather.ground(new int[] {c}, up -> !takes.get(up));
              return new DrainEffect.Intake(
                  x(c),
                  y(c),
                  part.areaM2(),
                  gather.coefficient(part) * part.areaM2(),
                  gather.runoff(part).volumeM3());
            })
        .toList();
  }

  private SortedMap<String, Delivery> deliveries(Led led) {
    BitSet takes = led.takes();
    SortedMap<String, List<Integer>> exits = new TreeMap<>();
    for (int c = lot.nextSetBit(0); c >= 0; c = lot.nextSetBit(c + 1)) {
      if (band.leavesForGood(c) && !takes.get(c)) {
        exits.computeIfAbsent(parcelId(band.beyond(c)), k -> new ArrayList<>()).add(c);
      }
    }
    double[] leavesM3 = led.flow().beenM3;
    SortedMap<String, Delivery> deliveries = new TreeMap<>();
    exits.forEach(
        (id, cells) -> {
          int[] at = cells.stream().mapToInt(c -> c).toArray();
          deliveries.put(
              id,
              new Delivery(
                  Arrays.stream(at).mapToDouble(c -> leavesM3[c]).sum(),
                  led.gather().of(at, c -> !takes.get(c), c -> !band.passesBy(c)),
                  Arrays.stream(at).mapToDouble(c -> leavesM3[c]).max().orElse(0) / frame.cellM(),
                  cells.contains(led.exit())));
        });
    return deliveries;
  }

  private InflowLedger ledger(LotFlow led, List<Crossed> in, List<Crossed> out) {
    double ownRain = 0;
    GroundSum own = contributions.none();
    for (int c = lot.nextSetBit(0); c >= 0; c = lot.nextSetBit(c + 1)) {
      if (flow.toward()[c] != FlowField.UNKNOWN) {
        ownRain += cover.areaM2(c) * storm.depthM();
        own.add(c);
      }
    }
    List<BoundaryFlow> inflow = in.stream().map(Crossed::flow).toList();
    List<BoundaryFlow> outflow = out.stream().map(Crossed::flow).toList();
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
        CurveNumber.runoff(own.byCoverM2(), cover.curveNumber(), storm.depthM()),
        LedgerNotes.assumptions(storm, cover, settings),
        LedgerNotes.warnings(storm, inflow, outflow));
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
}
