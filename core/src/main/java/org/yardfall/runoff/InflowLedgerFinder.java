package org.yardfall.runoff;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Collection;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.IntPredicate;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.elevation.Terrain;
import org.yardfall.runoff.InflowLedger.Balance;
import org.yardfall.runoff.StretchFinder.Crossing;
import org.yardfall.runoff.StretchFinder.Stretch;
import org.yardfall.site.Assumption;
import org.yardfall.site.Parcel;
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
 * without it they count as full.
 */
public final class InflowLedgerFinder {

  /** Crossings further apart than this many cells belong to different stretches. */
  private static final double GAP_CELLS = 3;

  private final Site site;
  private final SurfaceWater water;
  private final Storm storm;
  private final ElevationGrid ground;
  private final FlowField flow;
  private final GridFrame frame;
  private final SurfaceCover cover;
  private final PondShare ponds;
  private final int[] order;
  private final BitSet lot = new BitSet();
  private final int[] parcel;
  private final double[] runoffM3;
  private final TimeOfConcentration.Settings settings;
  private final Upstream upstream;

  private InflowLedgerFinder(
      Site site,
      Terrain terrain,
      SurfaceWater water,
      Storm storm,
      Optional<StandingWater> standing) {
    this.site = site;
    this.water = water;
    this.storm = storm;
    this.ground = terrain.ground();
    this.flow = water.flow();
    this.frame = flow.frame();
    if (!ground.frame().equals(frame)) {
      throw new IllegalArgumentException("terrain and surface water lie on different grids");
    }
    this.cover = SurfaceCover.of(site, ground);
    this.ponds = PondShare.of(water, standing);
    this.order = LotFlow.downstreamOrder(flow);
    this.upstream = new Upstream(flow);
    this.settings = TimeOfConcentration.Settings.of(storm.twoYear24hM().orElse(storm.depthM()));
    this.parcel = new int[frame.size()];
    Arrays.fill(parcel, -1);
    for (int i = site.parcels().size() - 1; i >= 0; i--) {
      int index = i;
      CellFill.fill(site.parcels().get(i).outline(), frame, c -> parcel[c] = index);
    }
    site.lot().ifPresent(l -> CellFill.fill(l.outline(), frame, lot::set));
    Map<Kind, Double> depth = cover.depthByKindM(storm.depthM());
    this.runoffM3 = new double[frame.size()];
    Arrays.setAll(runoffM3, c -> cover.runoffM3(c, depth));
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
    return ledger(new BitSet());
  }

  /** The lot's cells. */
  BitSet lotCells() {
    return lot;
  }

  GridFrame frame() {
    return frame;
  }

  FlowField flow() {
    return flow;
  }

  Site site() {
    return site;
  }

  Storm storm() {
    return storm;
  }

  /** The ledger with the water of some cells taken away; none of it comes back. */
  InflowLedger ledger(BitSet intercepted) {
    LotFlow led = new LotFlow(flow, order, lot, runoffM3, ponds, intercepted);
    List<BoundaryFlow> in = new ArrayList<>();
    List<BoundaryFlow> out = new ArrayList<>();
    double ownRain = 0;
    Map<Kind, Double> own = new EnumMap<>(Kind.class);
    if (site.lot().isPresent()) {
      StretchFinder stretches =
          new StretchFinder(site.lot().get().outline(), frame.cellM(), GAP_CELLS * frame.cellM());
      List<Crossing> entering = new ArrayList<>();
      List<Crossing> leaving = new ArrayList<>();
      for (int c = 0; c < frame.size(); c++) {
        if (led.entersAt(c)) {
          entering.add(crossing(c, c));
        } else if (led.leavesForGood(c)) {
          leaving.add(crossing(c, flow.receiver(c)));
        }
        if (lot.get(c) && flow.toward()[c] != FlowField.UNKNOWN) {
          ownRain += cover.areaM2(c) * storm.depthM();
          add(own, c);
        }
      }
      IntPredicate passes = c -> !intercepted.get(c);
      for (Stretch s : stretches.stretches(entering)) {
        in.add(boundaryFlow(s, true, led.freshM3, c -> !lot.get(c) && passes.test(c)));
      }
      for (Stretch s : stretches.stretches(leaving)) {
        out.add(boundaryFlow(s, false, led.beenM3, passes));
      }
    }
    Balance balance =
        new Balance(
            led.inflowM3,
            ownRain,
            led.outflowM3,
            led.standingM3,
            ownRain - led.ownRunoffM3,
            led.interceptedM3,
            led.heldBeyondM3);
    List<BoundaryFlow> inflow = numbered(in, "I");
    List<BoundaryFlow> outflow = numbered(out, "O");
    return new InflowLedger(
        storm,
        inflow,
        outflow,
        balance,
        CurveNumber.runoff(own, cover.group(), storm.depthM()),
        assumptions(),
        warnings(inflow, outflow));
  }

  private Crossing crossing(int cell, int beyond) {
    int r = flow.receiver(cell);
    double x = x(cell);
    double y = y(cell);
    Coordinate at = r < 0 ? new Coordinate(x, y) : new Coordinate((x + x(r)) / 2, (y + y(r)) / 2);
    boolean concentrated =
        water.areaM2()[cell] / frame.cellM() > settings.sheetLimitM(); // m² per m: length of slope
    return new Crossing(cell, at, parcelId(beyond), concentrated, water.areaM2()[cell]);
  }

  private BoundaryFlow boundaryFlow(
      Stretch stretch, boolean enters, double[] volumeM3, IntPredicate admit) {
    int[] cells = stretch.crossings().stream().mapToInt(Crossing::cell).toArray();
    Map<Kind, Double> byCover = new EnumMap<>(Kind.class);
    Map<String, Double> byParcel = new TreeMap<>();
    double[] sums = new double[2]; // area, coefficient times area
    boolean[] cut = new boolean[1];
    int head =
        upstream.walk(
            cells,
            admit,
            c -> cover.openM2(c) > 0,
            c -> {
              add(byCover, c);
              byParcel.merge(parcelId(c), cover.areaM2(c), Double::sum);
              sums[0] += cover.areaM2(c);
              sums[1] += coefficientTimesAreaM2(c);
              cut[0] |= water.edge().get(c);
            });
    double volume = 0;
    double east = 0;
    double north = 0;
    Crossing main = stretch.crossings().get(0);
    for (Crossing c : stretch.crossings()) {
      volume += volumeM3[c.cell()];
      double bearing = Math.toRadians(flow.bearingDeg(c.cell()));
      if (!Double.isNaN(bearing)) {
        east += c.weight() * Math.sin(bearing);
        north += c.weight() * Math.cos(bearing);
      }
      main = c.weight() > main.weight() ? c : main;
    }
    TimeOfConcentration time = time(head, cells);
    double intensity = storm.intensityMS(time.seconds());
    double coefficient =
        sums[0] > 0
            ? RationalMethod.composite(
                sums[1], sums[0], RationalMethod.frequencyFactor(storm.returnPeriodYears()))
            : 0;
    return new BoundaryFlow(
        "",
        enters,
        main.neighbour(),
        stretch.line(),
        main.at(),
        (Math.toDegrees(Math.atan2(east, north)) + 360) % 360,
        stretch.widthM(),
        sums[0],
        cut[0],
        volume,
        RationalMethod.peakM3S(coefficient, intensity, sums[0]),
        words(byCover),
        main.concentrated(),
        byParcel,
        CurveNumber.runoff(byCover, cover.group(), storm.depthM()),
        time,
        intensity,
        coefficient,
        enters ? List.of() : downstream(flow.receiver(main.cell())));
  }

  private void add(Map<Kind, Double> byCover, int cell) {
    if (cover.openM2(cell) > 0) {
      byCover.merge(cover.at(cell), cover.openM2(cell), Double::sum);
    }
    if (cover.roofM2()[cell] > 0) {
      byCover.merge(Kind.ROOF, cover.roofM2()[cell], Double::sum);
    }
  }

  private double coefficientTimesAreaM2(int cell) {
    char group = cover.group();
    return cover.openM2(cell) * RationalMethod.coefficient(cover.at(cell), group, slope(cell))
        + cover.roofM2()[cell] * RationalMethod.coefficient(Kind.ROOF, group, 0);
  }

  private double slope(int cell) {
    int r = flow.receiver(cell);
    double fall = r < 0 ? 0 : ground.z()[cell] - ground.z()[r];
    return fall > 0 ? fall / stepM(cell, r) : 0; // NaN counts as flat
  }

  private double stepM(int a, int b) {
    int d = Math.abs(a - b);
    return d == 1 || d == frame.cols() ? frame.cellM() : frame.cellM() * Math.sqrt(2);
  }

  private TimeOfConcentration time(int head, int[] ends) {
    int n = 0;
    if (head >= 0) {
      BitSet end = new BitSet();
      Arrays.stream(ends).forEach(end::set);
      for (int c = head; !end.get(c); c = flow.receiver(c)) {
        n++;
      }
    }
    double[] step = new double[n];
    double[] fall = new double[n];
    Kind[] kind = new Kind[n];
    double[] area = new double[n];
    int c = head;
    for (int i = 0; i < n; i++) {
      int r = flow.receiver(c);
      step[i] = stepM(c, r);
      double drop = water.filled()[c] - water.filled()[r];
      fall[i] = drop > 0 ? drop : 0;
      kind[i] = cover.at(c);
      area[i] = water.areaM2()[c];
      c = r;
    }
    return TimeOfConcentration.along(step, fall, kind, area, settings);
  }

  private List<String> downstream(int from) {
    Set<String> ids = new LinkedHashSet<>();
    for (int c = from; c >= 0; c = flow.receiver(c)) {
      if (parcel[c] >= 0 && !lot.get(c)) {
        ids.add(parcelId(c));
      }
    }
    return List.copyOf(ids);
  }

  /** Id of the parcel that a cell lies in; empty where there is none or no cell. */
  String parcelId(int cell) {
    if (cell < 0 || (parcel[cell] < 0 && !lot.get(cell))) {
      return "";
    }
    return lot.get(cell)
        ? site.lot().map(Parcel::id).orElse("")
        : site.parcels().get(parcel[cell]).id();
  }

  private double x(int cell) {
    return frame.x(cell % frame.cols());
  }

  private double y(int cell) {
    return frame.y(cell / frame.cols());
  }

  private static String words(Map<Kind, Double> byCover) {
    StringBuilder words = new StringBuilder();
    byCover.entrySet().stream()
        .sorted(
            Map.Entry.<Kind, Double>comparingByValue()
                .reversed()
                .thenComparing(Map.Entry.comparingByKey()))
        .forEach(
            e ->
                words
                    .append(words.isEmpty() ? "" : ", ")
                    .append(e.getKey().name().toLowerCase(Locale.ROOT))
                    .append(String.format(Locale.ROOT, " %.0f m2", e.getValue())));
    return words.toString();
  }

  private static List<BoundaryFlow> numbered(Collection<BoundaryFlow> flows, String prefix) {
    List<BoundaryFlow> sorted = new ArrayList<>(flows);
    sorted.sort(
        Comparator.comparingDouble((BoundaryFlow f) -> -f.volumeM3())
            .thenComparingDouble(f -> -f.areaM2())
            .thenComparingDouble(f -> f.at().x)
            .thenComparingDouble(f -> f.at().y));
    List<BoundaryFlow> named = new ArrayList<>();
    for (BoundaryFlow f : sorted) {
      named.add(f.withId(prefix + (named.size() + 1)));
    }
    return named;
  }

  private List<Assumption> assumptions() {
    List<Assumption> all = new ArrayList<>(storm.assumptions());
    all.addAll(cover.assumptions());
    all.add(
        new Assumption(
            "runoff coefficients", "by cover, soil group and slope", RationalMethod.SOURCE));
    if (storm.twoYear24hM().isEmpty()) {
      all.add(
          new Assumption(
              "two-year 24 h rain",
              String.format(Locale.ROOT, "%.4g m, the design storm's own depth", storm.depthM()),
              "not given; a deeper rain shortens sheet flow's time and raises the peak"));
    }
    all.add(
        new Assumption(
            "time of concentration",
            String.format(
                Locale.ROOT,
                "sheet flow of at most %.2f m, then shallow flow; at least %.0f s",
                settings.sheetLimitM(),
                settings.leastS()),
            "USDA NRCS, NEH 630 chapter 15 (2010); least time: FHWA HEC-22 (both from memory)"));
    return all;
  }

  private List<String> warnings(List<BoundaryFlow> in, List<BoundaryFlow> out) {
    List<String> warnings = new ArrayList<>();
    List<BoundaryFlow> all = new ArrayList<>(in);
    all.addAll(out);
    if (all.stream().anyMatch(BoundaryFlow::atLeast)) {
      warnings.add(
          "The known ground ends above some stretches: their areas, volumes and peaks are lower"
              + " bounds.");
    }
    for (BoundaryFlow f : all) {
      if (!storm.bursts().covers(f.time().seconds())) {
        warnings.add(
            "The intensity table does not reach the time of concentration of some stretches; its"
                + " nearest two lines were continued.");
        break;
      }
    }
    return warnings;
  }
}
