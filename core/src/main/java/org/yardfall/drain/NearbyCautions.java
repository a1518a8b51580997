package org.yardfall.drain;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.linearref.LengthIndexedLine;
import org.locationtech.jts.operation.distance.DistanceOp;
import org.yardfall.route.DrainLine;
import org.yardfall.route.Station;
import org.yardfall.site.Building;
import org.yardfall.site.Obstacle;
import org.yardfall.site.Site;
import org.yardfall.trench.TrenchSection;

/**
 * What the builder of a line must mind beside it: footings, utilities, trees, wells and the like.
 */
final class NearbyCautions {

  private static final double FOOT = 0.3048;

  /** Distance in metres within which a utility is dug free by hand: 24 in each side. */
  static final double UTILITY_M = 2 * FOOT;

  /** Distance in metres from a well that is spoken of: 100 ft ({@code common practice}). */
  static final double WELL_M = 100 * FOOT;

  /** Distance in metres from a septic field that is spoken of: 50 ft ({@code common practice}). */
  static final double SEPTIC_M = 50 * FOOT;

  /** Footing depth in metres where none is known: 12 in (IRC R403.1.4). */
  static final double FOOTING_M = FOOT;

  private final Site site;
  private final GeometryFactory factory = new GeometryFactory();
  private final List<Caution> found = new ArrayList<>();

  private NearbyCautions(Site site) {
    this.site = site;
  }

  /** A place on a line. */
  private record Place(String line, double stationM, double distanceM) {}

  /** A place in open trench: the station, and the depth in metres to the trench's bottom there. */
  private record Dug(Station station, double depthM) {}

  /** The cautions of a line with its pipes. */
  static List<Caution> of(LineDesign design, Site site) {
    NearbyCautions cautions = new NearbyCautions(site);
    cautions.footings(design);
    cautions.obstacles(design.name(), design.line());
    return cautions.found;
  }

  /** The trench's bottom below a line falling at 45° outward from the footing's underside. */
  private void footings(LineDesign design) {
    for (Building building : site.buildings()) {
      Caution worst = null;
      double deepest = 0;
      for (Dug place : samples(design)) {
        Station station = place.station();
        double apart =
            building
                    .outline()
                    .distance(factory.createPoint(new Coordinate(station.x(), station.y())))
                - site.drain().trenchWidthM() / 2;
        double dug = place.depthM();
        double below =
            building.footingBottomM().isPresent()
                ? building.footingBottomM().getAsDouble() - (station.groundM() - dug)
                : dug - FOOTING_M;
        if (below - apart > deepest) {
          deepest = below - apart;
          worst =
              new Caution(
                  "footing-influence",
                  design.name(),
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
                      + CautionFinder.DEFER);
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
                    + CautionFinder.DEFER);
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
                    + CautionFinder.DEFER);
        case SEPTIC ->
            within(
                near,
                Math.max(SEPTIC_M, obstacle.clearanceM()),
                "septic-near",
                "Septic system "
                    + obstacle.id()
                    + " lies this near: a drain can draw effluent or flood the field; the health"
                    + " authority sets the distance, uphill and downhill."
                    + CautionFinder.DEFER);
        case WELL ->
            within(
                near,
                Math.max(WELL_M, obstacle.clearanceM()),
                "well-near",
                "Well "
                    + obstacle.id()
                    + " lies this near: what the drain carries must not reach it; the health"
                    + " authority sets the distance."
                    + CautionFinder.DEFER);
        case WALL ->
            within(
                near,
                Math.max(site.drain().maxDepthM(), obstacle.clearanceM()),
                "wall-near",
                "Wall "
                    + obstacle.id()
                    + " lies this near: a trench beside it takes its footing's hold."
                    + CautionFinder.DEFER);
        case EASEMENT ->
            within(
                near,
                Math.max(0, obstacle.clearanceM()),
                "easement",
                "The line enters easement "
                    + obstacle.id()
                    + ": its holder must agree."
                    + CautionFinder.DEFER);
        case ROCK ->
            within(
                near,
                Math.max(0, obstacle.clearanceM()),
                "rock",
                String.format(
                    Locale.ROOT,
                    "Rock %s lies %.2f m down here by what was given: probe it before the trench is"
                        + " dug; what must be broken is not in the price.",
                    obstacle.id(),
                    obstacle.rockDepthM().orElseThrow()));
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
  private List<Dug> samples(LineDesign design) {
    List<Dug> samples = new ArrayList<>();
    List<Station> stations = design.line().stations();
    for (int i = 0; i + 1 < stations.size(); i++) {
      Station up = stations.get(i);
      Station down = stations.get(i + 1);
      if (up.span() == Station.Span.BORED) {
        continue;
      }
      TrenchSection section = design.stretches().get(i).section(site);
      int steps = (int) Math.max(1, Math.ceil((down.stationM() - up.stationM()) / 0.5));
      for (int s = 0; s <= steps; s++) {
        double share = (double) s / steps;
        Station at =
            new Station(
                mix(up.stationM(), down.stationM(), share),
                mix(up.x(), down.x(), share),
                mix(up.y(), down.y(), share),
                mix(up.groundM(), down.groundM(), share),
                mix(up.invertM(), down.invertM(), share),
                mix(up.coverM(), down.coverM(), share),
                mix(up.depthM(), down.depthM(), share),
                up.grade(),
                up.span());
        samples.add(new Dug(at, section.dugDepthM(at.depthM())));
      }
    }
    return samples;
  }

  private static double mix(double a, double b, double share) {
    return a + share * (b - a);
  }
}
