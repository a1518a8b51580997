package org.yardfall.layer;

import static org.yardfall.layer.Layer.Column.flag;
import static org.yardfall.layer.Layer.Column.perhaps;
import static org.yardfall.layer.Layer.Column.real;
import static org.yardfall.layer.Layer.Column.text;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.yardfall.layer.Layer.Shape;
import org.yardfall.site.Building;
import org.yardfall.site.Crossing;
import org.yardfall.site.LevelledSwale;
import org.yardfall.site.Obstacle;
import org.yardfall.site.Outlet;
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

  /** What a trench must mind, however it was given. */
  private record Minded(
      String id,
      String kind,
      Geometry area,
      Double clearanceM,
      String passage,
      OptionalDouble bottomM) {}

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
            real("clear_m", 3, Minded::clearanceM),
            text("passage", Minded::passage),
            perhaps("bottom_m", Minded::bottomM)));
  }

  private static List<Minded> minded(Site site) {
    List<Minded> all = new ArrayList<>();
    for (Building building : site.buildings()) {
      all.add(
          new Minded(
              building.id(),
              "building",
              building.outline(),
              site.drain().fromBuildingM(),
              Words.of(Obstacle.Passage.NONE),
              building.footingBottomM()));
    }
    for (Crossing crossing : site.crossings()) {
      all.add(
          new Minded(
              crossing.id(),
              "slab",
              crossing.outline(),
              null,
              Words.of(Obstacle.Passage.BORE),
              OptionalDouble.empty()));
    }
    for (Obstacle obstacle : site.obstacles()) {
      all.add(
          new Minded(
              obstacle.id(),
              Words.of(obstacle.kind()),
              area(obstacle),
              obstacle.clearanceM(),
              Words.of(obstacle.passage()),
              obstacle.bottomM()));
    }
    for (Seep seep : site.seeps()) {
      Geometry patch = seep.shape();
      all.add(
          new Minded(
              seep.id(),
              "seep",
              patch.getDimension() == 2 ? patch : patch.buffer(DRAWN_SEEP_M),
              null,
              Words.of(Obstacle.Passage.UNDER),
              OptionalDouble.empty()));
    }
    return all;
  }

  private static Geometry area(Obstacle obstacle) {
    Geometry shape = obstacle.shape();
    return shape.getDimension() == 2
        ? shape
        : shape.buffer(Math.max(DRAWN_M, obstacle.clearanceM()));
  }
}
