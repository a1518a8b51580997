package org.yardfall.layer;

import static org.yardfall.layer.Layer.Column.flag;
import static org.yardfall.layer.Layer.Column.perhaps;
import static org.yardfall.layer.Layer.Column.real;
import static org.yardfall.layer.Layer.Column.text;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.yardfall.layer.Layer.Shape;
import org.yardfall.route.OutletZone;
import org.yardfall.site.Building;
import org.yardfall.site.Crossing;
import org.yardfall.site.LevelledSwale;
import org.yardfall.site.Obstacle;
import org.yardfall.site.Outlet;
import org.yardfall.site.OutletRules;
import org.yardfall.site.Parcel;
import org.yardfall.site.Seep;
import org.yardfall.site.Site;
import org.yardfall.water.LevelledGround;

/** The layers of what was given: the lot, the outlets, what a trench must mind. */
final class SiteLayers {

  private static final GeometryFactory GEOMETRIES = new GeometryFactory();

  /** Half the width in metres at which a point or line without a clearance is drawn. */
  private static final double DRAWN_M = 0.05;

  /** The same for a wet patch of which only a point or line is given. */
  private static final double DRAWN_SEEP_M = 0.5;

  private SiteLayers() {}

  static Layer outlets(Result result) {
    return Layer.of(
        "outlets",
        "Outlets",
        Shape.POINT,
        result.outlets(),
        outlet -> GEOMETRIES.createPoint(outlet.at()),
        List.of(
            text("id", Outlet::id),
            text("kind", outlet -> outlet.kind().word()),
            perhaps("invert_m", Outlet::invertM),
            perhaps("water_m", Outlet::waterLevelM),
            perhaps("lid_m", Outlet::lidM),
            text("permit", Outlet::permitNote),
            perhaps("usual_m", Outlet::usualLevelM)));
  }

  static Layer lot(Result result) {
    return Layer.of(
        "lot",
        "The lot",
        Shape.AREA,
        result.site().lot().stream().toList(),
        Parcel::outline,
        List.of(text("id", Parcel::id), real("area_m2", 2, parcel -> parcel.outline().getArea())));
  }

  /** Where a pipe may come to daylight as far as the distances asked go. */
  static Layer daylight(Result result) {
    Site site = result.site();
    OutletRules rules = site.outletRules();
    List<Geometry> zone =
        site.lot().isEmpty() ? List.of() : List.of(OutletZone.daylight(site, rules));
    return Layer.of(
        "daylight",
        "Where a pipe may come to daylight by its distance from house, line and right-of-way",
        Shape.AREA,
        zone.stream().filter(area -> !area.isEmpty()).toList(),
        area -> area,
        List.of(
            real("from_house", 3, area -> rules.fromHouseM()),
            real("from_line", 3, area -> Math.max(rules.fromLineM(), site.drain().setbackM())),
            real("from_row", 3, area -> rules.fromRightOfWayM()),
            real("area_m2", 2, Geometry::getArea)));
  }

  static Layer levelled(Result result) {
    return Layer.of(
        "levelled",
        "Swales that are to be levelled",
        Shape.AREA,
        result.levelled().map(LevelledGround::swales).orElse(List.of()),
        swale ->
            result.site().levelled().stream()
                .filter(drawn -> drawn.id().equals(swale.id()))
                .map(LevelledSwale::outline)
                .findFirst()
                .orElse(null),
        List.of(
            text("id", LevelledGround.Swale::id),
            real("area_m2", 2, LevelledGround.Swale::areaM2),
            flag("at_least", LevelledGround.Swale::atLeast),
            real("fill_m3", 2, LevelledGround.Swale::fillM3),
            real("deepest_m", 3, LevelledGround.Swale::deepestM)));
  }

  /**
   * What a trench must mind, however it was given. Everything of the site's record has its field,
   * so that the layer can be given for the sections that it was made of.
   *
   * @param drawnM how much in metres a point or line is widened to be an area
   */
  private record Minded(
      String id,
      String kind,
      Geometry area,
      double drawnM,
      OptionalDouble clearanceM,
      String passage,
      Map<String, OptionalDouble> more,
      String stay) {

    OptionalDouble more(String field) {
      return more.getOrDefault(field, OptionalDouble.empty());
    }
  }

  static Layer obstacles(Result result) {
    return Layer.of(
        "obstacles",
        "Buildings, slabs, wet patches and obstacles; points and lines as wide as their clearance",
        Shape.AREA,
        minded(result.site()),
        Minded::area,
        List.of(
            text("id", Minded::id),
            text("kind", Minded::kind),
            perhaps("clear_m", Minded::clearanceM),
            text("passage", Minded::passage),
            more("bottom_m"),
            real("drawn_m", 3, Minded::drawnM),
            more("vert_m"),
            more("uphill_m"),
            more("downhill_m"),
            text("stay", Minded::stay),
            more("rock_m"),
            more("opening_m"),
            more("thick_m"),
            more("base_m"),
            more("cover_m"),
            more("water_m")));
  }

  private static Layer.Column<Minded> more(String field) {
    return perhaps(field, minded -> minded.more(field));
  }

  private static List<Minded> minded(Site site) {
    List<Minded> all = new ArrayList<>();
    for (Building building : site.buildings()) {
      all.add(
          new Minded(
              building.id(),
              "building",
              building.outline(),
              0,
              OptionalDouble.of(site.drain().fromBuildingM()),
              Words.of(Obstacle.Passage.NONE),
              Map.of("bottom_m", building.footingBottomM(), "opening_m", building.lowestOpeningM()),
              ""));
    }
    for (Crossing crossing : site.crossings()) {
      all.add(
          new Minded(
              crossing.id(),
              "slab",
              crossing.outline(),
              0,
              OptionalDouble.empty(),
              Words.of(Obstacle.Passage.BORE),
              Map.of(
                  "thick_m",
                  OptionalDouble.of(crossing.thicknessM()),
                  "base_m",
                  OptionalDouble.of(crossing.baseM()),
                  "cover_m",
                  OptionalDouble.of(crossing.coverM())),
              ""));
    }
    for (Obstacle obstacle : site.obstacles()) {
      double wide = drawnM(obstacle.shape(), Math.max(DRAWN_M, obstacle.clearanceM()));
      all.add(
          new Minded(
              obstacle.id(),
              Words.of(obstacle.kind()),
              widened(obstacle.shape(), wide),
              wide,
              OptionalDouble.of(obstacle.clearanceM()),
              Words.of(obstacle.passage()),
              Map.of(
                  "bottom_m",
                  obstacle.bottomM(),
                  "vert_m",
                  OptionalDouble.of(obstacle.verticalClearanceM()),
                  "uphill_m",
                  obstacle.uphillM(),
                  "downhill_m",
                  obstacle.downhillM(),
                  "rock_m",
                  obstacle.rockDepthM()),
              obstacle.stayInside() ? "inside" : ""));
    }
    for (Seep seep : site.seeps()) {
      double wide = drawnM(seep.shape(), DRAWN_SEEP_M);
      all.add(
          new Minded(
              seep.id(),
              "seep",
              widened(seep.shape(), wide),
              wide,
              OptionalDouble.empty(),
              Words.of(Obstacle.Passage.UNDER),
              Map.of("water_m", seep.waterDepthM()),
              ""));
    }
    return all;
  }

  private static double drawnM(Geometry shape, double wideM) {
    return shape.getDimension() == 2 ? 0 : wideM;
  }

  private static Geometry widened(Geometry shape, double byM) {
    return byM == 0 ? shape : shape.buffer(byM);
  }
}
