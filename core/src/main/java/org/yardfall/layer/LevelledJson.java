package org.yardfall.layer;

import static org.yardfall.layer.JsonText.AREA;
import static org.yardfall.layer.JsonText.LENGTH;
import static org.yardfall.layer.JsonText.VOLUME;

import java.io.IOException;
import java.util.List;
import org.yardfall.elevation.GridFrame;
import org.yardfall.site.WorkingCrs;
import org.yardfall.water.LevelledGround;

/** The swales that are levelled, with every cell that is raised, in {@code results.json}. */
final class LevelledJson {

  private final JsonText json;
  private final WorkingCrs crs;

  LevelledJson(JsonText json, WorkingCrs crs) {
    this.json = json;
    this.crs = crs;
  }

  void write(LevelledGround levelled) throws IOException {
    GridFrame frame = levelled.after().ground().frame();
    json.open("levelled");
    json.objects(
        "swales",
        levelled.swales(),
        swale -> {
          json.text("id", swale.id());
          json.array(
              "vertices",
              List.of(swale.bed().getCoordinates()),
              point -> json.pair(crs.toCrsUnit(point.x), crs.toCrsUnit(point.y), LENGTH));
          json.number("areaM2", swale.areaM2(), AREA)
              .flag("atLeast", swale.atLeast())
              .number("fillM3", swale.fillM3(), VOLUME)
              .number("deepestM", swale.deepestM(), LENGTH);
        });
    json.objects(
        "cells",
        levelled.cells(),
        cell ->
            json.text("swale", cell.by())
                .number("x", crs.toCrsUnit(frame.x(cell.cell() % frame.cols())), LENGTH)
                .number("y", crs.toCrsUnit(frame.y(cell.cell() / frame.cols())), LENGTH)
                .number("beforeM", cell.beforeM(), LENGTH)
                .number("afterM", cell.afterM(), LENGTH));
    json.end();
  }
}
