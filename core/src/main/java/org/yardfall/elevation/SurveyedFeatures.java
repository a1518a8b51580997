package org.yardfall.elevation;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.CoordinateXY;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.Polygon;
import org.yardfall.site.Assumption;
import org.yardfall.site.BadInputException;
import org.yardfall.site.Building;
import org.yardfall.site.Outlet;
import org.yardfall.site.PinnedTargets;
import org.yardfall.site.ShotRole;
import org.yardfall.site.Site;

/**
 * What shots show besides the ground, by the user's field codes: outlets, each at its shot with the
 * elevation as its invert, and buildings, whose corners of one code and number make an outline in
 * the order in which they were shot.
 *
 * @param outlets the outlets, by point number
 * @param buildings the buildings
 * @param assumptions what was made of which shots
 */
public record SurveyedFeatures(
    List<Outlet> outlets, List<Building> buildings, List<Assumption> assumptions) {

  /** Nothing. */
  static final SurveyedFeatures NONE = new SurveyedFeatures(List.of(), List.of(), List.of());

  /** A shot on an outlet of the site file's is this near it; common practice, no source. */
  private static final double SAME_OUTLET_M = 0.5;

  /** Outlines that share this much of the smaller are one house. */
  private static final double SAME_HOUSE = 0.5;

  private static final GeometryFactory FACTORY = new GeometryFactory();

  /** Keeps the lists to itself. */
  public SurveyedFeatures {
    outlets = List.copyOf(outlets);
    buildings = List.copyOf(buildings);
    assumptions = List.copyOf(assumptions);
  }

  /**
   * The features among shots.
   *
   * @throws BadInputException where corners make no outline
   */
  static SurveyedFeatures of(Shots shots, FieldCodes codes) {
    List<Outlet> outlets = new ArrayList<>();
    List<Building> buildings = new ArrayList<>();
    List<Assumption> said = new ArrayList<>();
    for (Shot shot : shots.shots()) {
      Optional<Outlet.Kind> kind = codes.role(shot).outlet();
      if (kind.isPresent()) {
        outlets.add(outlet(shot, kind.get()));
        said.add(
            new Assumption(
                "outlet " + shot.id(),
                String.format(Locale.ROOT, "%s, invert %.3f m", kind.get().word(), shot.z()),
                "shot "
                    + shot.id()
                    + " ("
                    + shot.code()
                    + ") of "
                    + shots.source()
                    + (codes.role(shot) == ShotRole.OUTLET
                        ? "; its kind is not stated: say catch-basin, ditch, waterway or street in"
                            + " elevation.codes"
                        : "")));
      }
    }
    for (List<Shot> corners :
        codes.lines(
            shots.shots(), ShotRole.BUILDING_CORNER, Double.POSITIVE_INFINITY, new ArrayList<>())) {
      Building building = building(corners, shots.source());
      buildings.add(building);
      said.add(
          new Assumption(
              "building " + building.id(),
              String.format(Locale.ROOT, "%.1f m²", building.outline().getArea()),
              "corners " + ids(corners) + " of " + shots.source() + ", in the order shot"));
    }
    return new SurveyedFeatures(outlets, buildings, said);
  }

  private static Outlet outlet(Shot shot, Outlet.Kind kind) {
    return new Outlet(
        shot.id(),
        kind,
        new CoordinateXY(shot.x(), shot.y()),
        OptionalDouble.of(shot.z()),
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        "");
  }

  private static Building building(List<Shot> corners, String source) {
    List<Coordinate> ring = new ArrayList<>();
    corners.forEach(shot -> ring.add(new CoordinateXY(shot.x(), shot.y())));
    if (!ring.get(0).equals2D(ring.get(ring.size() - 1))) {
      ring.add(ring.get(0).copy());
    }
    String house = "the building of corners " + ids(corners);
    if (ring.size() < 4) {
      throw new BadInputException(
          source,
          house + " has fewer than three",
          "shoot every corner, or give the code of one house a number of its own (BLD 1, BLD 2)");
    }
    Polygon outline = FACTORY.createPolygon(ring.toArray(Coordinate[]::new));
    if (!outline.isValid() || outline.getArea() == 0) {
      throw new BadInputException(
          source,
          house + " crosses itself",
          "shoot corners in order round the house, or number each house (BLD 1, BLD 2)");
    }
    return new Building(corners.get(0).id(), outline, OptionalDouble.empty());
  }

  private static String ids(List<Shot> corners) {
    return corners.stream().map(Shot::id).distinct().collect(Collectors.joining(", "));
  }

  /**
   * A site with them. What the site file gives itself stands: an outlet of the same name or place,
   * a building over the same ground.
   *
   * @throws BadInputException where a drawn drain is to lead to an outlet that is neither given nor
   *     shot
   */
  public Site on(Site site) {
    List<String> warnings = new ArrayList<>();
    List<Outlet> more = new ArrayList<>();
    for (Outlet outlet : outlets) {
      Optional<Outlet> given =
          site.outlets().stream()
              .filter(
                  own ->
                      own.id().equals(outlet.id())
                          || own.at().distance(outlet.at()) < SAME_OUTLET_M)
              .findFirst();
      if (given.isEmpty()) {
        more.add(outlet);
      } else if (differs(given.get(), outlet)) {
        warnings.add(
            "outlet "
                + given.get().id()
                + " is given in the site file and shot as "
                + outlet.id()
                + ", but not alike; the site file's is used");
      }
    }
    List<Building> houses = new ArrayList<>();
    for (Building building : buildings) {
      if (site.buildings().stream().noneMatch(own -> sameHouse(own, building))) {
        houses.add(building);
      }
    }
    return PinnedTargets.checked(site.with(more, houses, assumptions, warnings));
  }

  private static boolean differs(Outlet given, Outlet shot) {
    double invert = shot.invertM().orElseThrow();
    return given.at().distance(shot.at()) > 0.001
        || Math.abs(given.invertM().orElse(invert) - invert) > 0.005;
  }

  private static boolean sameHouse(Building a, Building b) {
    double shared = a.outline().intersection(b.outline()).getArea();
    return shared > SAME_HOUSE * Math.min(a.outline().getArea(), b.outline().getArea());
  }
}
