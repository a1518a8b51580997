package org.yardfall.runoff;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeSet;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.yardfall.elevation.GridFrame;
import org.yardfall.runoff.DrainEffect.NeighbourChange;
import org.yardfall.runoff.DrainEffect.StretchChange;
import org.yardfall.runoff.InflowLedgerFinder.Delivery;
import org.yardfall.runoff.InflowLedgerFinder.Drained;
import org.yardfall.site.Outlet;
import org.yardfall.site.UnitSystem;

/**
 * Finds what a drain changes across the property line: what runs onto its collecting lines goes
 * into it, and comes out at its outlet.
 *
 * <p>The lines are taken to swallow all that reaches them; a low spot through which they run keeps
 * only what lies below the lowest ground along them; whether pipe and stone can is for the pipe to
 * show. Water let out to daylight on the lot runs on over the ground from there; any other outlet
 * carries it off, to the parcel in which the outlet lies.
 */
public final class DrainEffectFinder {

  private static final Delivery NOTHING = new Delivery(0, null, 0, false);

  private final InflowLedgerFinder finder;
  private final Drained before;

  private DrainEffectFinder(InflowLedgerFinder now, InflowLedgerFinder finder) {
    this.finder = finder;
    this.before = now.undrained();
  }

  /** Finds the effects of several drains on one ledger. */
  public static DrainEffectFinder of(InflowLedgerFinder finder) {
    return new DrainEffectFinder(finder, finder);
  }

  /**
   * Finds the effects of several drains on ground that is shaped anew with them.
   *
   * @param now the ledger's finder of the ground as it is
   * @param shaped that of the ground as it will be, on the same cells
   */
  public static DrainEffectFinder of(InflowLedgerFinder now, InflowLedgerFinder shaped) {
    return new DrainEffectFinder(now, shaped);
  }

  /**
   * The effect of a drain.
   *
   * @param finder the ledger's finder
   * @param collectors its collecting lines in metres of the working plane
   * @param outlet where it lets its water go
   */
  public static DrainEffect find(
      InflowLedgerFinder finder, List<? extends Geometry> collectors, Outlet outlet) {
    BitSet line = lotCells(collectors, finder);
    DrainEffectFinder effects = of(finder);
    return effects.effect(finder.drained(line, effects.surfacesAt(outlet)), outlet);
  }

  /** The lot's cells that lines run through. */
  static BitSet lotCells(List<? extends Geometry> lines, InflowLedgerFinder finder) {
    BitSet line = new BitSet();
    for (Geometry g : lines) {
      for (int i = 0; i < g.getNumGeometries(); i++) {
        cells(g.getGeometryN(i).getCoordinates(), finder.frame(), line);
      }
    }
    toLot(line, finder);
    return line;
  }

  /**
   * The effect of a drain of which is known where it takes water.
   *
   * @param takes cells at which it takes water, the low spots it runs through among them
   * @param keepsM3 what those low spots keep all the same in m³, by their ids
   * @param outlet where it lets its water go
   */
  public DrainEffect find(BitSet takes, Map<String, Double> keepsM3, Outlet outlet) {
    return effect(finder.drained(takes, keepsM3, surfacesAt(outlet)), outlet);
  }

  /** Cell of the lot at which the outlet lets its water out over the ground, or −1. */
  private int surfacesAt(Outlet outlet) {
    int at = finder.frame().index(outlet.at().x, outlet.at().y);
    boolean surfaces = outlet.kind() == Outlet.Kind.DAYLIGHT && at >= 0 && finder.onLot(at);
    return surfaces ? at : -1;
  }

  private DrainEffect effect(Drained drained, Outlet outlet) {
    List<String> warnings = new ArrayList<>();
    if (drained.comesBack()) {
      warnings.add(
          "Outlet "
              + outlet.id()
              + " lies where its water would run back onto the collecting lines.");
    }
    List<NeighbourChange> changes =
        changes(before.deliveries(), drained, carriedOnto(outlet), finder.frame().cellM());
    for (NeighbourChange c : changes) {
      if (c.rises()) {
        warnings.add(rise(c));
      }
    }
    return new DrainEffect(
        before.ledger(),
        drained.ledger(),
        drained.captured(),
        drained.intakes(),
        drained.capturedM3(),
        before.ledger().all().stream().map(f -> change(f, drained)).toList(),
        changes,
        warnings);
  }

  /** In metric units, as all sentences of the stages; what a person reads is restated. */
  private static String rise(NeighbourChange c) {
    UnitSystem units = UnitSystem.METRIC;
    return String.format(
        Locale.ROOT,
        "With the drain, %s would receive %s instead of %s, at a peak of %s instead of %s, and where"
            + " it crosses the line closest together %s per m instead of %s per m; see local rules"
            + " before draining this way.",
        c.neighbour().isEmpty() ? "ground of no known parcel" : "parcel " + c.neighbour(),
        units.water(c.afterM3()),
        units.water(c.beforeM3()),
        units.flow(c.afterPeakM3S()),
        units.flow(c.beforePeakM3S()),
        units.water(c.afterPerMetreM2()),
        units.water(c.beforePerMetreM2()));
  }

  /** What crosses a stretch where the drain is; all its cells are crossings before and after. */
  private StretchChange change(BoundaryFlow stretch, Drained with) {
    InflowLedgerFinder.Led water = with.water();
    int[] all = before.crossings().get(stretch.id());
    int[] cells =
        stretch.enters() ? all : Arrays.stream(all).filter(c -> !water.takes().get(c)).toArray();
    double[] volume = stretch.enters() ? water.flow().freshM3 : water.flow().beenM3;
    Contribution from =
        water
            .gather()
            .of(cells, c -> !water.takes().get(c) && (!stretch.enters() || !finder.onLot(c)));
    boolean drains = !stretch.enters() && Arrays.stream(cells).anyMatch(c -> c == water.exit());
    return new StretchChange(
        stretch,
        from.areaM2() + (drains ? with.captured().areaM2() : 0),
        Arrays.stream(cells).mapToDouble(c -> volume[c]).sum(),
        RationalMethod.peakM3S(from.coefficient(), stretch.intensityMS(), from.areaM2())
            + (drains ? with.captured().peakM3S() : 0));
  }

  /** The parcel onto which an outlet beyond the lot carries the water, or empty. */
  private String carriedOnto(Outlet outlet) {
    int at = finder.frame().index(outlet.at().x, outlet.at().y);
    boolean underground =
        outlet.kind() == Outlet.Kind.CATCH_BASIN || outlet.kind() == Outlet.Kind.DRY_WELL;
    return at < 0 || underground || finder.onLot(at) ? "" : finder.parcelId(at);
  }

  private static List<NeighbourChange> changes(
      SortedMap<String, Delivery> before, Drained drained, String carriedOnto, double cellM) {
    SortedMap<String, Delivery> after = drained.deliveries();
    SortedSet<String> ids = new TreeSet<>(before.keySet());
    ids.addAll(after.keySet());
    if (!carriedOnto.isEmpty()) {
      ids.add(carriedOnto);
    }
    List<NeighbourChange> changes = new ArrayList<>();
    for (String id : ids) {
      Delivery a = before.getOrDefault(id, NOTHING);
      Delivery b = after.getOrDefault(id, NOTHING);
      boolean carried = id.equals(carriedOnto) && !carriedOnto.isEmpty();
      double intensity = a.from() == null ? 0 : a.from().intensityMS();
      double more = carried ? drained.capturedM3() : 0; // what runs on over the ground is in b
      changes.add(
          new NeighbourChange(
              id,
              areaM2(a),
              areaM2(b) + (carried || b.drains() ? drained.captured().areaM2() : 0),
              a.volumeM3(),
              b.volumeM3() + more,
              peak(a, intensity),
              peak(b, intensity) + (carried || b.drains() ? drained.captured().peakM3S() : 0),
              a.volumePerMetreM2(),
              Math.max(b.volumePerMetreM2(), more / cellM)));
    }
    return changes;
  }

  private static double areaM2(Delivery delivery) {
    return delivery.from() == null ? 0 : delivery.from().areaM2();
  }

  private static double peak(Delivery delivery, double intensityMS) {
    return delivery.from() == null
        ? 0
        : RationalMethod.peakM3S(
            delivery.from().coefficient(), intensityMS, delivery.from().areaM2());
  }

  /**
   * Moves cells whose centre lies beyond the property line to the lot's cells next to them: a line
   * close inside the property line belongs to the lot, however coarse the grid.
   */
  private static void toLot(BitSet line, InflowLedgerFinder finder) {
    GridFrame frame = finder.frame();
    for (int c : line.stream().toArray()) {
      if (!finder.onLot(c)) {
        line.clear(c);
        for (int row = c / frame.cols() - 1; row <= c / frame.cols() + 1; row++) {
          for (int col = c % frame.cols() - 1; col <= c % frame.cols() + 1; col++) {
            if (frame.has(col, row) && finder.onLot(row * frame.cols() + col)) {
              line.set(row * frame.cols() + col);
            }
          }
        }
      }
    }
  }

  /** Marks the cells a line runs through, each next to the one before by a side, never a corner. */
  static void cells(Coordinate[] line, GridFrame frame, BitSet cells) {
    for (int i = 0; i < line.length; i++) {
      Coordinate a = line[Math.max(0, i - 1)];
      Coordinate b = line[i];
      int steps = Math.max(1, (int) Math.ceil(a.distance(b) / frame.cellM() * 8));
      int col = frame.col(a.x);
      int row = frame.row(a.y);
      for (int k = 0; k <= steps; k++) {
        double share = k / (double) steps;
        int toCol = frame.col(a.x + share * (b.x - a.x));
        int toRow = frame.row(a.y + share * (b.y - a.y));
        if (toCol != col && toRow != row && frame.has(toCol, row)) {
          cells.set(row * frame.cols() + toCol); // else water slips through the corner
        }
        col = toCol;
        row = toRow;
        if (frame.has(col, row)) {
          cells.set(row * frame.cols() + col);
        }
      }
    }
  }
}
