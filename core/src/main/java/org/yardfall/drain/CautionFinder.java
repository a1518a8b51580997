package org.yardfall.drain;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.linearref.LengthIndexedLine;
import org.locationtech.jts.operation.distance.DistanceOp;
import org.yardfall.route.DrainLine;
import org.yardfall.route.Route;
import org.yardfall.route.Station;
import org.yardfall.site.Building;
import org.yardfall.site.Obstacle;
import org.yardfall.site.Outlet;
import org.yardfall.site.Parcel;
import org.yardfall.site.Site;
import org.yardfall.trench.TrenchSafety;
import org.yardfall.trench.TrenchSection;

/**
 * Finds what the builder of a drain must be told, by condition. Every caution defers to local code
 * and licensed practice; none says that all is well.
 */
final class CautionFinder {

  private static final double FOOT = 0.3048;

  /** Distance in metres within which a utility is dug free by hand: 24 in each side. */
  static final double UTILITY_M = 2 * FOOT;

  /** Distance in metres from a well that is spoken of: 100 ft ({@code common practice}). */
  static final double WELL_M = 100 * FOOT;

  /** Distance in metres from a septic field that is spoken of: 50 ft ({@code common practice}). */
  static final double SEPTIC_M = 50 * FOOT;

  /**
   * Distance in metres from a neighbour's land that is spoken of: 10 ft ({@code common practice}).
   */
  static final double NEIGHBOUR_M = 10 * FOOT;

  /** Footing depth in metres where none is known: 12 in (IRC R403.1.4, from memory). */
  static final double FOOTING_M = FOOT;

  private static final String DEFER = " Local code and licensed practice decide.";

  private final Site site;
  private final TrenchSection section;
  private final GeometryFactory factory = new GeometryFactory();
  private final List<Caution> found = new ArrayList<>();

  private CautionFinder(Site site) {
    this.site = site;
    this.section = TrenchSection.of(site.drain());
  }

  /** A place on a line. */
  private record Place(String line, double stationM, double distanceM) {}

  /** What the builder of a route must be told. */
  static List<Caution> find(Route route, Site site) {
    CautionFinder finder = new CautionFinder(site);
    List<DrainLine> lines = DrainCatchmentFinder.lines(route);
    finder.general();
    for (int i = 0; i < lines.size(); i++) {
      String name = name(i);
      finder.depth(name, lines.get(i));
      finder.footings(name, lines.get(i));
      finder.obstacles(name, lines.get(i));
      finder.bores(name, lines.get(i));
    }
    finder.shallow(lines);
    site.outlets().stream()
        .filter(o -> o.id().equals(route.outletId()))
        .findFirst()
        .ifPresent(o -> finder.outlet(o, route));
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

  private void depth(String name, DrainLine line) {
    Station deepest = null;
    for (Station station : line.stations()) {
      if (station.span() != Station.Span.BORED
          && (deepest == null || station.depthM() > deepest.depthM())) {
        deepest = station;
      }
    }
    if (deepest == null) {
      return;
    }
    double dug = section.dugDepthM(deepest.depthM());
    for (TrenchSafety.Duty duty : TrenchSafety.at(dug)) {
      if (duty.thresholdM() == 0) {
        once(Caution.general(duty.code(), duty.words()));
        continue;
      }
      found.add(
          new Caution(duty.code(), name, deepest.stationM(), dug, duty.thresholdM(), duty.words()));
    }
  }

  private void once(Caution caution) {
    if (!found.contains(caution)) {
      found.add(caution);
    }
  }

  /** The trench's bottom below a line falling at 45° outward from the footing's underside. */
  private void footings(String name, DrainLine line) {
    for (Building building : site.buildings()) {
      Caution worst = null;
      double deepest = 0;
      for (Station station : samples(line)) {
        double apart =
            building
                    .outline()
                    .distance(factory.createPoint(new Coordinate(station.x(), station.y())))
                - section.widthM() / 2;
        double dug = section.dugDepthM(station.depthM());
        double below =
            building.footingBottomM().isPresent()
                ? building.footingBottomM().getAsDouble() - (station.groundM() - dug)
                : dug - FOOTING_M;
        if (below - apart > deepest) {
          deepest = below - apart;
          worst =
              new Caution(
                  "footing-influence",
                  name,
                  station.stationM(),
                  apart,
                  below,
                  "The trench's edge is nearer to building "
                      + building.id()
                      + " than its bottom is deep below the footing"
                      + (building.footingBottomM().isPresent()
                          ? ""
                          : " (its underside taken at 12 in, 0.3 m, since none was given)")
                      + ": it lies within the footing's influence, below a line at 45° from its"
                      + " underside. Digging there can undermine the building. Ask a structural"
                      + " engineer before digging."
                      + DEFER);
        }
      }
      if (worst != null) {
        found.add(worst);
      }
    }
  }

  private void obstacles(String name, DrainLine line) {
    LineString path = path(line);
    for (Obstacle obstacle : site.obstacles()) {
      Place near = near(name, path, obstacle.shape());
      switch (obstacle.kind()) {
        case UTILITY ->
            within(
                near,
                Math.max(UTILITY_M, obstacle.clearanceM()),
                "utility-near",
                "Utility "
                    + obstacle.id()
                    + " lies this near: have it marked, dig by hand, keep the clearance its owner"
                    + " asks."
                    + DEFER);
        case SPRINKLER ->
            within(
                near,
                Math.max(FOOT, obstacle.clearanceM()),
                "sprinkler-near",
                "Sprinkler line "
                    + obstacle.id()
                    + " lies this near: dig by hand, expect repairs.");
        case TREE ->
            within(
                near,
                obstacle.clearanceM(),
                "roots",
                "The line passes within the root zone of tree "
                    + obstacle.id()
                    + ": roots cut may cost the tree its hold, roots left grow into openings; solid"
                    + " pipe with tight joints there, and an arborist's word."
                    + DEFER);
        case SEPTIC ->
            within(
                near,
                Math.max(SEPTIC_M, obstacle.clearanceM()),
                "septic-near",
                "Septic system "
                    + obstacle.id()
                    + " lies this near: a drain can draw effluent or flood the field; the health"
                    + " authority sets the distance, uphill and downhill."
                    + DEFER);
        case WELL ->
            within(
                near,
                Math.max(WELL_M, obstacle.clearanceM()),
                "well-near",
                "Well "
                    + obstacle.id()
                    + " lies this near: what the drain carries must not reach it; the health"
                    + " authority sets the distance."
                    + DEFER);
        case WALL ->
            within(
                near,
                Math.max(site.drain().maxDepthM(), obstacle.clearanceM()),
                "wall-near",
                "Wall "
                    + obstacle.id()
                    + " lies this near: a trench beside it takes its footing's hold."
                    + DEFER);
        case EASEMENT ->
            within(
                near,
                Math.max(0, obstacle.clearanceM()),
                "easement",
                "The line enters easement " + obstacle.id() + ": its holder must agree." + DEFER);
        case KEEP_OUT -> {
          // The search keeps out; nothing to tell.
        }
      }
    }
  }

  private void within(Place near, double thresholdM, String code, String words) {
    if (near.distanceM() <= thresholdM) {
      found.add(
          new Caution(code, near.line(), near.stationM(), near.distanceM(), thresholdM, words));
    }
  }

  private void bores(String name, DrainLine line) {
    List<Station> stations = line.stations();
    for (int i = 0; i + 1 < stations.size(); i++) {
      boolean begins =
          stations.get(i).span() == Station.Span.BORED
              && (i == 0 || stations.get(i - 1).span() != Station.Span.BORED);
      if (begins) {
        found.add(
            new Caution(
                "bore",
                name,
                stations.get(i).stationM(),
                stations.get(i).coverM(),
                Double.NaN,
                "Bored blind under a slab from here, with this cover: expose every utility that the"
                    + " bore crosses, and dig no pit that takes the slab's support."
                    + DEFER));
      }
    }
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

  private void outlet(Outlet outlet, Route route) {
    double end = route.main().lengthM();
    String permit =
        outlet.permitNote().isBlank() ? "" : " Noted for it: " + outlet.permitNote() + ".";
    switch (outlet.kind()) {
      case CATCH_BASIN ->
          found.add(
              new Caution(
                  "sewer-tie-in",
                  "main",
                  end,
                  Double.NaN,
                  Double.NaN,
                  "Outlet "
                      + outlet.id()
                      + " ties into a drain: its owner's permit and a licensed hand may be needed,"
                      + " and a backwater valve where it can fill. Storm water never goes into a"
                      + " sanitary sewer."
                      + permit
                      + DEFER));
      case STREET, WATERWAY, DITCH ->
          found.add(
              new Caution(
                  "outlet-permit",
                  "main",
                  end,
                  Double.NaN,
                  Double.NaN,
                  "Outlet "
                      + outlet.id()
                      + " ends at a "
                      + outlet.kind().word()
                      + ": whoever keeps it may ask for a permit, and for protection against"
                      + " scour."
                      + permit
                      + DEFER));
      case DAYLIGHT ->
          found.add(
              new Caution(
                  "outlet-scour",
                  "main",
                  end,
                  Double.NaN,
                  Double.NaN,
                  "Outlet "
                      + outlet.id()
                      + " lets its water go at one place: spread it on stone and keep it from"
                      + " cutting."
                      + permit
                      + DEFER));
      case DRY_WELL ->
          found.add(
              new Caution(
                  "dry-well",
                  "main",
                  end,
                  Double.NaN,
                  Double.NaN,
                  "Outlet "
                      + outlet.id()
                      + " soaks away: only a test of the soil there tells whether it does; it must"
                      + " overflow where that harms nobody."
                      + permit
                      + DEFER));
    }
    nearestNeighbour(outlet)
        .ifPresent(
            near ->
                found.add(
                    new Caution(
                        "neighbour-near",
                        "main",
                        end,
                        near.distanceM(),
                        NEIGHBOUR_M,
                        "The outlet lies this near to parcel "
                            + near.line()
                            + ": collected water let go here can reach it."
                            + DEFER)));
  }

  private Optional<Place> nearestNeighbour(Outlet outlet) {
    Geometry at = factory.createPoint(outlet.at());
    Place nearest = null;
    for (Parcel parcel : site.neighbours()) {
      double distance = parcel.outline().distance(at);
      if (distance <= NEIGHBOUR_M && (nearest == null || distance < nearest.distanceM())) {
        nearest = new Place(parcel.id(), 0, distance);
      }
    }
    return Optional.ofNullable(nearest);
  }

  private LineString path(DrainLine line) {
    return factory.createLineString(
        line.stations().stream().map(s -> new Coordinate(s.x(), s.y())).toArray(Coordinate[]::new));
  }

  private static Place near(String name, LineString path, Geometry shape) {
    Coordinate[] nearest = DistanceOp.nearestPoints(path, shape);
    return new Place(
        name, new LengthIndexedLine(path).indexOf(nearest[0]), nearest[0].distance(nearest[1]));
  }

  /**
   * Stations with more in between, so that no two open ones are further apart than half a metre.
   */
  private static List<Station> samples(DrainLine line) {
    List<Station> samples = new ArrayList<>();
    List<Station> stations = line.stations();
    for (int i = 0; i + 1 < stations.size(); i++) {
      Station up = stations.get(i);
      Station down = stations.get(i + 1);
      if (up.span() == Station.Span.BORED) {
        continue;
      }
      int steps = (int) Math.max(1, Math.ceil((down.stationM() - up.stationM()) / 0.5));
      for (int s = 0; s <= steps; s++) {
        double share = (double) s / steps;
        samples.add(
            new Station(
                mix(up.stationM(), down.stationM(), share),
                mix(up.x(), down.x(), share),
                mix(up.y(), down.y(), share),
                mix(up.groundM(), down.groundM(), share),
                mix(up.invertM(), down.invertM(), share),
                mix(up.coverM(), down.coverM(), share),
                mix(up.depthM(), down.depthM(), share),
                up.grade(),
                up.span()));
      }
    }
    return samples;
  }

  private static double mix(double a, double b, double share) {
    return a + share * (b - a);
  }
}
