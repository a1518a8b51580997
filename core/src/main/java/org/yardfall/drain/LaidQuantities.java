package org.yardfall.drain;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import org.locationtech.jts.algorithm.Angle;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.pipe.Pipe;
import org.yardfall.pipe.PipeTable;
import org.yardfall.route.Bore;
import org.yardfall.route.DrainLine;
import org.yardfall.route.Route;
import org.yardfall.route.Station;
import org.yardfall.site.Prices.Item;
import org.yardfall.site.Site;
import org.yardfall.trench.MetrePrice;
import org.yardfall.trench.Restoration;
import org.yardfall.trench.TrenchSection;
import org.yardfall.trench.Work;

/**
 * What the lines of a drain add up to. Every quantity of a stretch is that of {@link MetrePrice} at
 * its mean depth and the cover at its middle, times its length, so that the bill and the search
 * agree.
 */
final class LaidQuantities {

  /** Greatest distance in metres between accesses: 100 ft ({@code common practice, no source}). */
  static final double ACCESS_M = 30.48;

  private final Site site;
  private final Map<Pipe, MetrePrice> metres = new HashMap<>();
  private final EnumMap<Item, Double> sums = new EnumMap<>(Item.class);
  private final EnumMap<Item, Double> planned = new EnumMap<>(Item.class);
  private final Map<Pipe, Double> pipes = new LinkedHashMap<>();
  private final List<Double> dugM3 = new ArrayList<>();
  private final Map<Object, List<Run>> runs = new HashMap<>();
  private double stoneM3;
  private double spoilM3;
  private double topM3;
  private double trenchM;
  private double girthM;
  private int bends;
  private int wyes;
  private int slabWyes;
  private int slabReducers;
  private int cleanOuts;
  private int reducers;
  private int couplings;

  private LaidQuantities(Site site) {
    this.site = site;
  }

  /**
   * A part of a line.
   *
   * @param line the line's name
   * @param fromM station of its upper end in metres
   * @param toM station of its lower end in metres
   * @param count pipes side by side
   */
  record Run(String line, double fromM, double toM, int count) {

    /** The stations between which it lies, in words. */
    String words() {
      return String.format(
          Locale.ROOT, "%s, %.3f to %.3f m%s", line, fromM, toM, count > 1 ? ", × " + count : "");
    }
  }

  /** The quantities of a drain with its pipes. */
  static LaidQuantities of(Route route, Site site, List<LineDesign> lines) {
    LaidQuantities laid = new LaidQuantities(site);
    lines.forEach(laid::add);
    laid.wyes = route.branches().size();
    for (Bore bore : route.bores()) {
      if (bore.pipes().count() > 1) {
        laid.slabWyes += 2;
        laid.slabReducers += 2 * bore.pipes().count();
      }
    }
    return laid;
  }

  private void add(LineDesign design) {
    List<Station> stations = design.line().stations();
    List<StretchDesign> stretches = design.stretches();
    double dug = 0;
    for (int i = 0; i < stretches.size(); i++) {
      dug += add(design.name(), stations.get(i), stations.get(i + 1), stretches.get(i));
      if (i > 0) {
        join(stretches.get(i - 1), stretches.get(i));
      }
    }
    dugM3.add(dug);
    List<Double> bendsAt = bendStations(design.line());
    bends += bendsAt.size();
    cleanOuts += cleanOuts(design.line(), bendsAt);
  }

  /** What joins two stretches; where pipes part or meet, wye and reducers do. */
  private void join(StretchDesign above, StretchDesign below) {
    if (above.count() != below.count()) {
      return;
    }
    Pipe before = above.pipe();
    Pipe after = below.pipe();
    reducers += before.nominalIn() < after.nominalIn() ? 1 : 0;
    boolean alike =
        before.perforated() == after.perforated() && before.material() == after.material();
    couplings += alike ? 0 : 1;
  }

  /** Adds a stretch and gives the soil dug for it in m³. */
  private double add(String line, Station up, Station down, StretchDesign stretch) {
    double length = stretch.lengthM();
    double depth = (up.depthM() + down.depthM()) / 2;
    Work work = work(up.span(), stretch.inRootZone());
    MetrePrice metre = metre(stretch.pipe());
    MetrePrice asPlanned = metre(PipeTable.of(site.drain()));
    for (Item item : Item.WEIGHED) {
      double times = length * (work == Work.BORED ? stretch.count() : 1);
      sums.merge(item, times * metre.quantity(item, work, depth, stretch.cover()), Double::sum);
      planned.merge(
          item, times * asPlanned.quantity(item, work, depth, stretch.cover()), Double::sum);
    }
    pipes.merge(stretch.pipe(), length * stretch.count(), Double::sum);
    Run run = new Run(line, stretch.fromM(), stretch.toM(), stretch.count());
    run(stretch.pipe(), run);
    run(work, run);
    if (work == Work.BORED) {
      return 0;
    }
    Restoration top = Restoration.of(stretch.cover());
    TrenchSection section = metre.section();
    trenchM += length;
    stoneM3 += length * section.stoneM2(depth, top);
    spoilM3 += length * section.spoilM2(depth, top);
    topM3 += length * section.topM2(depth, top);
    girthM =
        Math.max(
            girthM,
            Math.max(section.fabricM(up.depthM(), top), section.fabricM(down.depthM(), top)));
    return length * section.dugM2(depth);
  }

  /** Notes where a pipe or a kind of work lies, joined to what it follows on. */
  private void run(Object what, Run run) {
    List<Run> before = runs.computeIfAbsent(what, key -> new ArrayList<>());
    Run last = before.isEmpty() ? null : before.get(before.size() - 1);
    if (last != null
        && last.line().equals(run.line())
        && last.count() == run.count()
        && last.toM() == run.fromM()) {
      before.set(before.size() - 1, new Run(run.line(), last.fromM(), run.toM(), run.count()));
    } else {
      before.add(run);
    }
  }

  private MetrePrice metre(Pipe pipe) {
    return metres.computeIfAbsent(
        pipe,
        key -> {
          MetrePrice usual = MetrePrice.of(site);
          TrenchSection section = usual.section().withPipe(pipe.outsideM(), pipe.insideM());
          return new MetrePrice(section, usual.stone(), usual.swell(), site.prices());
        });
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

  /** Quantity of an item that is priced, in its SI unit. */
  double of(Item item) {
    return sums.getOrDefault(item, 0.0);
  }

  /** The same if every stretch had the pipe with which the route was planned. */
  double asPlanned(Item item) {
    return planned.getOrDefault(item, 0.0);
  }

  /** Length in metres by pipe, pipes side by side counted each. */
  Map<Pipe, Double> pipesM() {
    return pipes;
  }

  /** Where a {@link Pipe} or a kind of {@link Work} lies, in words. */
  String where(Object what) {
    return runs.getOrDefault(what, List.of()).stream()
        .map(Run::words)
        .collect(Collectors.joining("; "));
  }

  /** Soil dug, as it lies, in m³ by line: the main line, then the branches in order. */
  List<Double> dugM3() {
    return dugM3;
  }

  /** Stone in m³. */
  double stoneM3() {
    return stoneM3;
  }

  /** Spoil as it lay, in m³. */
  double spoilM3() {
    return spoilM3;
  }

  /** What is cut from the top and put back or made good, sod and pavement, in m³. */
  double topM3() {
    return topM3;
  }

  /** Trench in metres, bores left out. */
  double trenchM() {
    return trenchM;
  }

  /** Greatest girth of the fabric in metres. */
  double girthM() {
    return girthM;
  }

  /** Turns that take a fitting. */
  int bends() {
    return bends;
  }

  /** Wyes where branches join. */
  int wyes() {
    return wyes;
  }

  /** Wyes at the ends of bores with two pipes. */
  int slabWyes() {
    return slabWyes;
  }

  /** Reducers there. */
  int slabReducers() {
    return slabReducers;
  }

  /** Clean-outs. */
  int cleanOuts() {
    return cleanOuts;
  }

  /** Reducers where the pipe grows. */
  int reducers() {
    return reducers;
  }

  /** Couplings between unlike pipes. */
  int couplings() {
    return couplings;
  }
}
