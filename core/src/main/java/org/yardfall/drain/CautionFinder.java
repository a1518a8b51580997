package org.yardfall.drain;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import org.yardfall.route.Bore;
import org.yardfall.route.DrainLine;
import org.yardfall.route.Route;
import org.yardfall.route.Station;
import org.yardfall.site.Site;
import org.yardfall.trench.TrenchSafety;
import org.yardfall.trench.TrenchSection;

/**
 * Finds what the builder of a drain must be told, by condition. Every caution defers to local code
 * and licensed practice; none says that all is well.
 */
final class CautionFinder {

  static final String DEFER = " Local code and licensed practice decide.";

  private final Site site;
  private final List<Caution> found = new ArrayList<>();

  private CautionFinder(Site site) {
    this.site = site;
  }

  /** What the builder of a route with the given pipes must be told. */
  static List<Caution> find(Route route, Site site, List<LineDesign> designs) {
    CautionFinder finder = new CautionFinder(site);
    List<DrainLine> lines = DrainCatchmentFinder.lines(route);
    finder.general();
    finder.groundwater();
    for (int i = 0; i < lines.size(); i++) {
      String name = name(i);
      finder.depth(designs.get(i));
      finder.found.addAll(NearbyCautions.of(designs.get(i), site));
      finder.bores(name, lines.get(i), i, route);
    }
    finder.shallow(lines);
    site.outlets().stream()
        .filter(o -> o.id().equals(route.outletId()))
        .findFirst()
        .ifPresent(
            o -> {
              finder.found.addAll(EndCautions.of(o, route.main().lengthM(), site));
              EndCautions.frozen(o, route.main(), site).ifPresent(finder.found::add);
              EndCautions.bare(o, route.main()).ifPresent(finder.found::add);
            });
    return List.copyOf(finder.found);
  }

  /** {@code main}, {@code branch 1} … */
  static String name(int line) {
    return line == 0 ? "main" : "branch " + line;
  }

  private void general() {
    found.add(
        Caution.general(
            "utility-locate",
            "Have buried utilities located and marked before any digging or boring (811, at least two"
                + " full business days ahead, in the United States; your local service elsewhere);"
                + " dig by hand within 24 in (0.6 m) of a mark. Private lines are not marked for you."
                + DEFER));
    found.add(
        Caution.general(
            "drainage-law",
            "Water may not be collected and sent onto a neighbour faster, in greater amount or at"
                + " another place than it runs now where the law forbids it; discharge may need a"
                + " permit."
                + DEFER));
  }

  /** Elevations show no groundwater: what kind of water it is, is asked, never guessed. */
  private void groundwater() {
    if (!site.soil().groundwaterKnown()) {
      found.add(
          Caution.general(
              "surface-or-groundwater",
              "Surface or groundwater? Nothing was given of the water table, and this drain is"
                  + " designed for surface water alone. Where the ground stays wet long after rain,"
                  + " have a test pit dug and the water's level read before anything is built."
                  + DEFER));
    }
  }

  private void depth(LineDesign design) {
    Station deepest = null;
    double dug = 0;
    for (int i = 0; i < design.stretches().size(); i++) {
      if (design.stretches().get(i).span() == Station.Span.BORED) {
        continue;
      }
      TrenchSection section = design.stretches().get(i).section(site);
      for (Station station : design.line().stations().subList(i, i + 2)) {
        if (section.dugDepthM(station.depthM()) > dug) {
          deepest = station;
          dug = section.dugDepthM(station.depthM());
        }
      }
    }
    if (deepest == null) {
      return;
    }
    for (TrenchSafety.Duty duty : TrenchSafety.at(dug)) {
      if (duty.thresholdM() == 0) {
        once(Caution.general(duty.code(), duty.words()));
        continue;
      }
      found.add(
          new Caution(
              duty.code(),
              design.name(),
              deepest.stationM(),
              dug,
              duty.thresholdM(),
              duty.words()));
    }
  }

  private void once(Caution caution) {
    if (!found.contains(caution)) {
      found.add(caution);
    }
  }

  private void bores(String name, DrainLine line, int number, Route route) {
    List<Station> stations = line.stations();
    for (int i = 0; i + 1 < stations.size(); i++) {
      Station begins = stations.get(i);
      if (begins.span() != Station.Span.BORED
          || (i > 0 && stations.get(i - 1).span() == Station.Span.BORED)) {
        continue;
      }
      found.add(
          new Caution(
              "bore",
              name,
              begins.stationM(),
              begins.coverM(),
              Double.NaN,
              "Bored blind under a slab from here, with this cover: expose every utility that the"
                  + " bore crosses, and dig no pit that takes the slab's support."
                  + DEFER));
      route.bores().stream()
          .filter(b -> b.line() == number && b.pipes().count() > 1)
          .filter(b -> Math.abs(b.fromM() - begins.stationM()) < 1e-6)
          .forEach(b -> found.add(sideBySide(name, b)));
    }
  }

  /** Two pipes in place of one: {@code common practice, no source}. */
  private static Caution sideBySide(String name, Bore bore) {
    return new Caution(
        "bore-side-by-side",
        name,
        bore.fromM(),
        bore.lengthM(),
        Double.NaN,
        bore.pipes().words()
            + ", are bored side by side over this length: leave soil between the bores, keep both"
            + " at one grade so that neither lies idle, and put a clean-out at the wye."
            + DEFER);
  }

  private void shallow(List<DrainLine> lines) {
    Station least = null;
    int on = 0;
    for (int i = 0; i < lines.size(); i++) {
      for (Station station : lines.get(i).stations()) {
        if (least == null || station.coverM() < least.coverM()) {
          least = station;
          on = i;
        }
      }
    }
    if (least != null) {
      found.add(
          new Caution(
              "frost",
              name(on),
              least.stationM(),
              least.coverM(),
              site.soil().frostDepthM().orElse(Double.NaN),
              frost(least)));
    }
  }

  private String frost(Station least) {
    String words =
        "This is the least cover. Where the ground freezes deeper, water that stands in the pipe or"
            + " at its end freezes: the pipe must empty, and the outlet stay open. ";
    OptionalDouble frost = site.soil().frostDepthM();
    if (frost.isEmpty()) {
      return words + "The local frost depth was not given and is not checked.";
    }
    double depth = frost.getAsDouble();
    return least.coverM() >= depth
        ? String.format(Locale.ROOT, "%sThe frost, %.2f m deep, does not reach it.", words, depth)
        : String.format(
            Locale.ROOT,
            "%sThe ground freezes %.2f m deep, %.2f m below the pipe's top there: an end in gravel"
                + " or a dry well that cannot empty stops working in the cold.",
            words,
            depth,
            depth - least.coverM());
  }
}
