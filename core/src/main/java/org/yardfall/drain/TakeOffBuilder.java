package org.yardfall.drain;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.locationtech.jts.algorithm.Angle;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.drain.TakeOff.Line;
import org.yardfall.drain.TakeOff.Measure;
import org.yardfall.pipe.Pipe;
import org.yardfall.route.DrainLine;
import org.yardfall.route.Route;
import org.yardfall.route.Station;
import org.yardfall.site.Prices;
import org.yardfall.site.Prices.Item;
import org.yardfall.site.Site;
import org.yardfall.site.Surface;
import org.yardfall.trench.FabricRoll;
import org.yardfall.trench.GroundCover;
import org.yardfall.trench.MetrePrice;
import org.yardfall.trench.Restoration;
import org.yardfall.trench.TrenchSection;
import org.yardfall.trench.Work;

/**
 * Counts what a drain takes. Every quantity of a stretch is that of {@link MetrePrice} at its mean
 * depth and the cover at its middle, times its length, so that the bill and the search agree.
 */
final class TakeOffBuilder {

  /** Greatest distance in metres between accesses: 100 ft ({@code common practice, no source}). */
  static final double ACCESS_M = 30.48;

  /** A length of pipe as sold in metres: 10 ft ({@code common practice, no source}). */
  static final double PIPE_LENGTH_M = 3.048;

  /** A truck's load in m³: 10 yd³ ({@code common practice, no source}). */
  static final double LOAD_M3 = 7.64554857984;

  private final Site site;
  private final GroundCover ground;
  private final Prices prices;
  private final EnumMap<Item, Double> sums = new EnumMap<>(Item.class);
  private final Map<String, Double> pipes = new LinkedHashMap<>();
  private final Map<String, MetrePrice> metres = new TreeMap<>();
  private double dugM3;
  private double stoneM3;
  private double spoilM3;
  private double trenchM;
  private double girthM;
  private int bends;
  private int wyes;
  private int cleanOuts;
  private int reducers;
  private int couplings;

  private TakeOffBuilder(Site site) {
    this.site = site;
    this.ground = GroundCover.of(site);
    this.prices = site.prices();
  }

  /** The take-off of a drain with its pipes. */
  static TakeOff of(Route route, Site site, List<LineDesign> lines, boolean openEnd) {
    TakeOffBuilder builder = new TakeOffBuilder(site);
    lines.forEach(builder::add);
    builder.wyes = route.branches().size();
    return builder.build(openEnd);
  }

  private MetrePrice metre(Pipe pipe) {
    return metres.computeIfAbsent(
        pipe.outsideM() + "/" + pipe.insideM(),
        key -> {
          MetrePrice usual = MetrePrice.of(site);
          TrenchSection section =
              new TrenchSection(
                  site.drain().trenchWidthM(),
                  pipe.outsideM(),
                  pipe.insideM(),
                  usual.section().bedM());
          return new MetrePrice(section, usual.stone(), usual.swell(), prices);
        });
  }

  private void add(LineDesign design) {
    List<Station> stations = design.line().stations();
    List<StretchDesign> stretches = design.stretches();
    for (int i = 0; i < stretches.size(); i++) {
      StretchDesign stretch = stretches.get(i);
      add(stations.get(i), stations.get(i + 1), stretch);
      if (i > 0) {
        Pipe before = stretches.get(i - 1).pipe();
        reducers += before.insideM() < stretch.pipe().insideM() ? 1 : 0;
        couplings += before.perforated() != stretch.pipe().perforated() ? 1 : 0;
      }
    }
    List<Double> bendsAt = bendStations(design.line());
    bends += bendsAt.size();
    cleanOuts += cleanOuts(design.line(), bendsAt);
  }

  private void add(Station up, Station down, StretchDesign stretch) {
    double length = stretch.lengthM();
    double depth = (up.depthM() + down.depthM()) / 2;
    double x = (up.x() + down.x()) / 2;
    double y = (up.y() + down.y()) / 2;
    Surface.Kind cover = ground.at(x, y);
    Work work = work(up.span(), ground.inRootZone(x, y));
    MetrePrice metre = metre(stretch.pipe());
    for (Item item : Item.values()) {
      sums.merge(item, length * metre.quantity(item, work, depth, cover), Double::sum);
    }
    pipes.merge(stretch.pipe().words(), length, Double::sum);
    if (work != Work.BORED) {
      Restoration top = Restoration.of(cover);
      TrenchSection section = metre.section();
      trenchM += length;
      dugM3 += length * section.dugM2(depth);
      stoneM3 += length * section.stoneM2(depth, top);
      spoilM3 += length * section.spoilM2(depth, top);
      girthM =
          Math.max(
              girthM,
              Math.max(section.fabricM(up.depthM(), top), section.fabricM(down.depthM(), top)));
    }
  }

  /** How a span is built, as far as its price goes. */
  static Work work(Station.Span span, boolean rootZone) {
    return switch (span) {
      case BORED -> Work.BORED;
      case OPEN -> Work.OPEN;
      case SOLID -> rootZone ? Work.ROOT_ZONE : Work.SOLID;
    };
  }

  /** Stations in metres of the turns that take a fitting. */
  static List<Double> bendStations(DrainLine line) {
    List<Coordinate> v = line.vertices();
    List<Double> at = new ArrayList<>();
    double station = 0;
    for (int i = 1; i + 1 < v.size(); i++) {
      station += v.get(i).distance(v.get(i - 1));
      double turn =
          Angle.toDegrees(Math.PI - Angle.angleBetween(v.get(i - 1), v.get(i), v.get(i + 1)));
      if (MetrePrice.takesFitting(turn)) {
        at.add(station);
      }
    }
    return at;
  }

  /**
   * One at the upper end, one at each bend, and in between so that none is further than allowed.
   */
  private static int cleanOuts(DrainLine line, List<Double> bendsAt) {
    int count = 1 + bendsAt.size();
    double before = 0;
    for (double at : bendsAt) {
      count += between(at - before);
      before = at;
    }
    return count + between(line.lengthM() - before);
  }

  private static int between(double lengthM) {
    return (int) Math.max(0, Math.ceil(lengthM / ACCESS_M - 1e-9) - 1);
  }

  private TakeOff build(boolean openEnd) {
    List<Line> lines = new ArrayList<>();
    MetrePrice usual = MetrePrice.of(site);
    TrenchSection section = usual.section();
    lines.add(
        asDug(
            "trench",
            "trench, counted as trench " + Prices.REFERENCE_DEPTH_M + " m deep",
            Measure.LENGTH,
            Item.TRENCH,
            text(
                "%.1f m of trench %.2f m wide, mean depth %.2f m",
                trenchM, section.widthM(), trenchM > 0 ? dugM3 / trenchM / section.widthM() : 0)));
    lines.add(
        plain(
            "excavation",
            "soil dug, as it lies",
            Measure.VOLUME,
            dugM3,
            "width times depth to the bottom of the bed, sod and pavement included"));
    double stoneT = sums.getOrDefault(Item.STONE, 0.0);
    lines.add(
        plain(
            "stone-volume",
            "stone No. " + usual.stone().size() + ", by volume",
            Measure.VOLUME,
            stoneM3,
            "all trench is refilled with stone, net of the pipe's outside"));
    lines.add(
        line(
            "stone",
            "stone No. " + usual.stone().size(),
            Measure.MASS,
            stoneT,
            up(stoneT, 1),
            "rounded up to whole tonnes",
            text(
                "%.2f m³ at %.3f t/m³ (%.1f lb/ft³)",
                stoneM3,
                usual.stone().bulkDensityTM3(),
                usual.stone().bulkDensityTM3() / 0.0160184634),
            Item.STONE,
            true));
    addFabric(lines);
    addPipes(lines);
    addSpoil(lines, usual);
    lines.add(
        asDug("sod", "sod cut and put back", Measure.AREA, Item.SOD, "trench width under lawn"));
    lines.add(
        asDug(
            "pavement",
            "pavement cut and made good",
            Measure.AREA,
            Item.PAVEMENT,
            "trench width under pavement"));
    lines.add(asDug("bore", "bored crossing", Measure.LENGTH, Item.BORE, "length under slabs"));
    lines.add(
        asDug(
            "tree-zone",
            "extra for trench through roots",
            Measure.LENGTH,
            Item.TREE_ZONE,
            "length within the trees' clearance"));
    addFittings(lines, openEnd);
    lines.removeIf(l -> l.needed() <= 0);
    Set<Item> missing = new TreeSet<>();
    for (Line l : lines) {
      if (l.priceItem() != null && l.unitPrice().isEmpty()) {
        missing.add(l.priceItem());
      }
    }
    return new TakeOff(lines, missing);
  }

  private void addFabric(List<Line> lines) {
    double area = sums.getOrDefault(Item.FABRIC, 0.0);
    if (trenchM <= 0) {
      return;
    }
    FabricRoll.Order order = FabricRoll.cover(girthM, trenchM);
    lines.add(
        line(
            "fabric",
            "non-woven geotextile round stone and pipe",
            Measure.AREA,
            area,
            Math.max(area, order.areaM2()),
            text(
                "%d rolls of %.2f × %.1f m (%.1f × %.0f ft)%s, laps included",
                order.rolls(),
                order.roll().widthM(),
                order.roll().lengthM(),
                order.roll().widthM() / 0.3048,
                order.roll().lengthM() / 0.3048,
                order.strips() > 1 ? ", " + order.strips() + " strips side by side" : ""),
            text("girth at most %.2f m, lap on top included, along %.1f m", girthM, trenchM),
            Item.FABRIC,
            true));
  }

  private void addPipes(List<Line> lines) {
    pipes.forEach(
        (words, length) ->
            lines.add(
                line(
                    "pipe",
                    words,
                    Measure.LENGTH,
                    length,
                    up(length, PIPE_LENGTH_M),
                    text("rounded up to lengths of %.3f m (10 ft)", PIPE_LENGTH_M),
                    "plan length of the stretches with this pipe; one price for every size",
                    words.contains("perforated") ? Item.PIPE : Item.SOLID_PIPE,
                    true)));
  }

  private void addSpoil(List<Line> lines, MetrePrice usual) {
    double loose = sums.getOrDefault(Item.HAUL_OFF, 0.0);
    lines.add(
        asDug(
            "spoil",
            "spoil hauled away, loose",
            Measure.VOLUME,
            Item.HAUL_OFF,
            text(
                "%.2f m³ as it lies, sod left out, grown by %.0f %%",
                spoilM3, 100 * usual.swell().share())));
    lines.add(
        line(
            "loads",
            "truck loads of spoil",
            Measure.COUNT,
            loose / LOAD_M3,
            Math.ceil(loose / LOAD_M3 - 1e-9),
            text("rounded up to whole loads of %.2f m³ (10 yd³)", LOAD_M3),
            "loose spoil over the load",
            null,
            false));
  }

  private void addFittings(List<Line> lines, boolean openEnd) {
    fitting(lines, "bend", "bends", bends, "turns of 10° and more", true);
    fitting(lines, "wye", "wyes", wyes, "one where a branch joins", true);
    fitting(lines, "reducer", "reducers", reducers, "one where the pipe grows", false);
    fitting(
        lines,
        "coupling",
        "couplings",
        couplings,
        "one where perforated pipe meets solid; lengths join by their own bells",
        false);
    fitting(
        lines,
        "clean-out",
        "clean-outs",
        cleanOuts,
        text(
            "one at the upper end of each line, at each bend, and no further than %.2f m (100 ft)"
                + " apart",
            ACCESS_M),
        false);
    fitting(
        lines,
        "rodent-screen",
        "rodent screen",
        openEnd ? 1 : 0,
        "pipe of 12 in or less that ends in the open (UFC 3-270-04, 12.6)",
        false);
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
    double quantity = sums.getOrDefault(price, 0.0);
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
    Double given = price == null ? null : prices.perUnit().get(price);
    return new Line(
        code,
        item,
        measure,
        needed,
        sold,
        rule,
        how,
        price,
        given == null ? OptionalDouble.empty() : OptionalDouble.of(given),
        inRoutePrice);
  }

  private static double up(double quantity, double piece) {
    return Math.ceil(quantity / piece - 1e-9) * piece;
  }

  private static String text(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }
}
