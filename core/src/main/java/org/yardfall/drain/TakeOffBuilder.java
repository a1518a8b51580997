package org.yardfall.drain;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.yardfall.drain.TakeOff.Line;
import org.yardfall.drain.TakeOff.Measure;
import org.yardfall.route.Route;
import org.yardfall.site.Prices;
import org.yardfall.site.Prices.Item;
import org.yardfall.site.Site;
import org.yardfall.trench.FabricRoll;
import org.yardfall.trench.MetrePrice;
import org.yardfall.trench.Stone;
import org.yardfall.trench.Work;

/**
 * Writes the bill of a drain: each quantity with the rule by which it is bought, how it follows
 * from the design, and its price.
 */
final class TakeOffBuilder {

  /** A length of pipe as sold in metres: 10 ft ({@code common practice, no source}). */
  static final double PIPE_LENGTH_M = 3.048;

  /** A truck's load in m³: 10 yd³ ({@code common practice, no source}). */
  static final double LOAD_M3 = 7.64554857984;

  private final Site site;
  private final Prices prices;
  private final LaidQuantities laid;

  private TakeOffBuilder(Site site, LaidQuantities laid) {
    this.site = site;
    this.prices = site.prices();
    this.laid = laid;
  }

  /** The take-off of a drain with its pipes. */
  static TakeOff of(
      Route route, Site site, List<LineDesign> lines, Optional<Pumping> pumping, boolean openEnd) {
    return new TakeOffBuilder(site, LaidQuantities.of(route, site, lines)).build(pumping, openEnd);
  }

  private TakeOff build(Optional<Pumping> pumping, boolean openEnd) {
    List<Line> lines = new ArrayList<>();
    MetrePrice usual = MetrePrice.of(site);
    double dugM3 = laid.dugM3().stream().mapToDouble(m3 -> m3).sum();
    double widthM = usual.section().widthM();
    double meanDepthM = laid.trenchM() > 0 ? dugM3 / laid.trenchM() / widthM : 0;
    lines.add(
        asDug(
            "trench",
            text("trench, counted as trench %.3f m deep", Prices.REFERENCE_DEPTH_M),
            Measure.LENGTH,
            Item.TRENCH,
            text(
                "%.3f m of trench × %.5f, which is its mean depth to the bottom of the bed, %.4f m,"
                    + " over %.4f m",
                laid.trenchM(),
                meanDepthM / Prices.REFERENCE_DEPTH_M,
                meanDepthM,
                Prices.REFERENCE_DEPTH_M)));
    lines.add(
        plain(
            "excavation",
            "soil dug, as it lies",
            Measure.VOLUME,
            dugM3,
            text(
                "%.3f m of trench × %.4f m wide × %.4f m deep on the mean, sod and pavement included",
                laid.trenchM(), widthM, meanDepthM)));
    addStone(lines, usual.stone(), dugM3);
    addFabric(lines);
    addPipes(lines);
    addSpoil(lines, usual, dugM3);
    lines.add(
        asDug(
            "sod",
            "sod cut and put back",
            Measure.AREA,
            Item.SOD,
            under("lawn", laid.of(Item.SOD), widthM)));
    lines.add(
        asDug(
            "pavement",
            "pavement cut and made good",
            Measure.AREA,
            Item.PAVEMENT,
            under("pavement", laid.of(Item.PAVEMENT), widthM)));
    lines.add(
        asDug(
            "bore",
            "bored crossing",
            Measure.LENGTH,
            Item.BORE,
            "under slabs: " + laid.where(Work.BORED)));
    lines.add(
        asDug(
            "tree-zone",
            "extra for trench through roots",
            Measure.LENGTH,
            Item.TREE_ZONE,
            "within the trees' clearance: " + laid.where(Work.ROOT_ZONE)));
    addFittings(lines, openEnd);
    pumping.ifPresent(p -> addPump(lines, p));
    lines.removeIf(l -> l.needed() <= 0);
    return new TakeOff(lines, laid.dugM3(), largerPipes());
  }

  /** What the bill comes to more than the search weighed, since it weighed one pipe throughout. */
  private double largerPipes() {
    return prices.perUnit().entrySet().stream()
        .filter(e -> Item.WEIGHED.contains(e.getKey()))
        .mapToDouble(e -> e.getValue() * (laid.of(e.getKey()) - laid.asPlanned(e.getKey())))
        .sum();
  }

  /** Stone by the unit that it is bought by: a price of a tonne is that of its cubic metres too. */
  private void addStone(List<Line> lines, Stone stone, double dugM3) {
    String name = "stone No. " + stone.size();
    Line volume =
        plain(
            "stone-volume",
            name + ", by volume",
            Measure.VOLUME,
            laid.stoneM3(),
            text(
                "all that is dug, %.3f m³, less %.3f m³ of sod and pavement on top and %.3f m³ that"
                    + " the pipe's outside takes",
                dugM3, laid.topM3(), dugM3 - laid.topM3() - laid.stoneM3()));
    Prices.StoneUnit unit = prices.stoneSoldBy().orElse(Prices.StoneUnit.T);
    String symbol = unit.byVolume() ? "m³" : "t";
    double massT = unit.byVolume() ? stone.bulkDensityTM3() : 1;
    double needed = laid.of(Item.STONE) / massT;
    String density =
        text(
            "%.4f t/m³ (%.1f lb/ft³)",
            stone.bulkDensityTM3(), stone.bulkDensityTM3() / 0.0160184634);
    OptionalDouble perTonne = given(Item.STONE);
    lines.add(volume);
    lines.add(
        new Line(
            "stone",
            name,
            unit.byVolume() ? Measure.VOLUME : Measure.MASS,
            needed,
            up(needed, unit.size()),
            text(
                "rounded up to %.0f whole %s of %.4f %s",
                up(needed, unit.size()) / unit.size(), unit.words(), unit.size(), symbol),
            text("%.3f m³", laid.stoneM3())
                + (unit.byVolume() ? "; a tonne's price at " : " at ")
                + density,
            Item.STONE,
            perTonne.isPresent() ? OptionalDouble.of(perTonne.getAsDouble() * massT) : perTonne,
            true));
  }

  private void addFabric(List<Line> lines) {
    double area = laid.of(Item.FABRIC);
    if (laid.trenchM() <= 0) {
      return;
    }
    FabricRoll.Order order = FabricRoll.cover(laid.girthM(), laid.trenchM());
    lines.add(
        line(
            "fabric",
            "non-woven geotextile round stone and pipe",
            Measure.AREA,
            area,
            Math.max(area, order.areaM2()),
            text(
                "%d rolls of %.3f × %.2f m (%.1f × %.0f ft)%s, the narrowest sold that goes round"
                    + " the greatest girth of %.3f m, each rolled out %.2f m over the one before",
                order.rolls(),
                order.roll().widthM(),
                order.roll().lengthM(),
                order.roll().widthM() / 0.3048,
                order.roll().lengthM() / 0.3048,
                order.strips() > 1 ? ", " + order.strips() + " strips side by side" : "",
                laid.girthM(),
                FabricRoll.END_LAP_M),
            text(
                "girth %.4f m on the mean, lap on top included, along %.3f m",
                area / laid.trenchM(), laid.trenchM()),
            Item.FABRIC,
            true));
  }

  private void addPipes(List<Line> lines) {
    laid.pipesM()
        .forEach(
            (pipe, length) ->
                lines.add(
                    line(
                        "pipe",
                        pipe.words(),
                        Measure.LENGTH,
                        length,
                        up(length, PIPE_LENGTH_M),
                        text(
                            "rounded up to %.0f lengths of %.3f m (10 ft)",
                            up(length, PIPE_LENGTH_M) / PIPE_LENGTH_M, PIPE_LENGTH_M),
                        "plan length of " + laid.where(pipe) + "; one price for every size",
                        pipe.perforated() ? Item.PIPE : Item.SOLID_PIPE,
                        true)));
  }

  private static String under(String cover, double areaM2, double widthM) {
    return text("%.3f m of trench under %s × %.4f m wide", areaM2 / widthM, cover, widthM);
  }

  private void addSpoil(List<Line> lines, MetrePrice usual, double dugM3) {
    double loose = laid.of(Item.HAUL_OFF);
    lines.add(
        asDug(
            "spoil",
            "spoil hauled away, loose",
            Measure.VOLUME,
            Item.HAUL_OFF,
            text(
                "%.3f m³ as it lies (%.3f m³ dug, the sod's %.3f m³ left out), grown by %.0f %%",
                laid.spoilM3(), dugM3, dugM3 - laid.spoilM3(), 100 * usual.swell().share())));
    lines.add(
        line(
            "loads",
            "truck loads of spoil",
            Measure.COUNT,
            loose / LOAD_M3,
            Math.ceil(loose / LOAD_M3 - 1e-9),
            "rounded up to whole loads",
            text("%.3f m³ loose over a load of %.4f m³ (10 yd³)", loose, LOAD_M3),
            null,
            false));
  }

  private void addFittings(List<Line> lines, boolean openEnd) {
    fitting(lines, "bend", "bends", laid.bends(), "turns of 10° and more", true);
    fitting(lines, "wye", "wyes", laid.wyes(), "one where a branch joins", true);
    fitting(
        lines,
        "slab-wye",
        "wyes into two pipes under a slab",
        laid.slabWyes(),
        "one at each end of the bores with two pipes side by side",
        true);
    fitting(
        lines,
        "slab-reducer",
        "reducers to the two pipes under a slab",
        laid.slabReducers(),
        "one for each of the two pipes at each end",
        true);
    fitting(lines, "reducer", "reducers", laid.reducers(), "one where the pipe grows", false);
    fitting(
        lines,
        "coupling",
        "couplings",
        laid.couplings(),
        "one where perforated pipe meets solid, or one material another; lengths join by their own"
            + " bells",
        false);
    fitting(
        lines,
        "clean-out",
        "clean-outs",
        laid.cleanOuts(),
        text(
            "one at the upper end of each line, at each bend, and no further than %.2f m (100 ft)"
                + " apart",
            LaidQuantities.ACCESS_M),
        false);
    fitting(
        lines,
        "rodent-screen",
        "rodent screen",
        openEnd ? 1 : 0,
        "pipe of 12 in or less that ends in the open (UFC 3-270-04, 12.6)",
        false);
  }

  private void addPump(List<Line> lines, Pumping pumping) {
    addOne(
        lines,
        "sump",
        "sump",
        Item.SUMP,
        text(
            "room for %.2f m³ below the drain's end: %.3f m³ an hour on the mean of the storm, for"
                + " %.2f h without power",
            pumping.storedM3(), pumping.meanM3H(), pumping.outageH()));
    addOne(
        lines,
        "pump",
        "pump",
        Item.PUMP,
        text(
            "to pass the %.2f l/s that the drain brings at the peak against a static lift of %.3f m:"
                + " from the float, set no higher than the drain's end at %.3f m, to %s at %.3f m;"
                + " what the float is set lower and what the discharge pipe loses come on top",
            pumping.peakM3S() * 1000,
            pumping.liftM(),
            pumping.floatM(),
            pumping.discharge().words(),
            pumping.discharge().levelM()));
    addOne(
        lines,
        "check-valve",
        "one-way (check) valve",
        Item.VALVE,
        "on the pump's discharge, so that what stands in it does not run back");
  }

  private void addOne(List<Line> lines, String code, String item, Item price, String how) {
    lines.add(line(code, item, Measure.COUNT, 1, 1, "whole pieces", how, price, false));
  }

  private void fitting(
      List<Line> lines, String code, String item, int count, String how, boolean inRoutePrice) {
    lines.add(
        line(
            code,
            item,
            Measure.COUNT,
            count,
            count,
            "whole pieces",
            how,
            Item.FITTING,
            inRoutePrice));
  }

  private Line asDug(String code, String item, Measure measure, Item price, String how) {
    double quantity = laid.of(price);
    return line(
        code, item, measure, quantity, quantity, "as measured, not rounded", how, price, true);
  }

  private Line plain(String code, String item, Measure measure, double quantity, String how) {
    return line(
        code, item, measure, quantity, quantity, "as measured, not rounded", how, null, false);
  }

  private Line line(
      String code,
      String item,
      Measure measure,
      double needed,
      double sold,
      String rule,
      String how,
      Item price,
      boolean inRoutePrice) {
    return new Line(
        code, item, measure, needed, sold, rule, how, price, given(price), inRoutePrice);
  }

  private OptionalDouble given(Item price) {
    Double given = price == null ? null : prices.perUnit().get(price);
    return given == null ? OptionalDouble.empty() : OptionalDouble.of(given);
  }

  private static double up(double quantity, double piece) {
    return Math.ceil(quantity / piece - 1e-9) * piece;
  }

  private static String text(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }
}
