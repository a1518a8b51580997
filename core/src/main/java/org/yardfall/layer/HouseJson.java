package org.yardfall.layer;

import static org.yardfall.layer.JsonText.LENGTH;

import java.io.IOException;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.route.FoundationFall;
import org.yardfall.route.OpeningFreeboard;
import org.yardfall.site.WorkingCrs;

/** How the ground and the water lie to the houses, in {@code results.json}. */
final class HouseJson {

  private final JsonText json;
  private final WorkingCrs crs;

  HouseJson(JsonText json, WorkingCrs crs) {
    this.json = json;
    this.crs = crs;
  }

  void write(Result result) throws IOException {
    ElevationGrid ground = result.terrain().ground();
    json.objects(
        "openings",
        OpeningFreeboard.table(result.site(), ground, result.water()),
        row ->
            json.text("building", row.buildingId())
                .number("openingM", row.openingM(), LENGTH)
                .text("against", row.against())
                .number("levelM", row.levelM(), LENGTH)
                .number("freeboardM", row.freeboardM(), LENGTH)
                .number("neededM", row.neededM(), LENGTH)
                .flag("passes", row.passes()));
    json.objects(
        "foundation",
        FoundationFall.ofHouse(result.site(), ground),
        place ->
            json.text("building", place.buildingId())
                .number("x", crs.toCrsUnit(place.x()), LENGTH)
                .number("y", crs.toCrsUnit(place.y()), LENGTH)
                .number("bearingDeg", place.bearingDeg(), 1)
                .number("overM", place.overM(), LENGTH)
                .number("fallM", place.fallM(), LENGTH)
                .number("neededM", place.neededM(), LENGTH)
                .flag("passes", place.passes()));
  }
}
