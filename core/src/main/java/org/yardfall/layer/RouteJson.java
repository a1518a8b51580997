package org.yardfall.layer;

import static org.yardfall.layer.JsonText.DIAMETER;
import static org.yardfall.layer.JsonText.GRADE;
import static org.yardfall.layer.JsonText.LENGTH;
import static org.yardfall.layer.JsonText.VOLUME;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.drain.DrainDesign;
import org.yardfall.drain.TakeOff;
import org.yardfall.pipe.Pipe;
import org.yardfall.route.Audit;
import org.yardfall.route.Bore;
import org.yardfall.route.DrainKind;
import org.yardfall.route.DrainLine;
import org.yardfall.route.Rejection;
import org.yardfall.route.Route;
import org.yardfall.route.Station;
import org.yardfall.site.WorkingCrs;

/** The routes and rejected drains of {@code results.json}. */
final class RouteJson {

  private final JsonText json;
  private final WorkingCrs crs;
  private final Result result;

  RouteJson(JsonText json, Result result) {
    this.json = json;
    this.crs = result.site().crs();
    this.result = result;
  }

  void write(Route route) throws IOException {
    writeHead(route.id(), route.kind(), route.outletId(), route.main().vertices());
    json.integer("rank", route.rank());
    json.objects("stations", route.main().stations(), this::writeStation);
    json.objects(
        "branches",
        route.branches(),
        branch -> {
          json.integer("joins", branch.joins()).number("junctionM", branch.junctionM(), LENGTH);
          writeLine(branch.line());
        });
    Optional<TakeOff> takeOff = result.design(route).map(DrainDesign::takeOff);
    json.number("lengthM", route.lengthM(), LENGTH)
        .number("fallM", route.fallM(), LENGTH)
        .number("minGrade", route.minGrade(), GRADE)
        .number("maxGrade", route.maxGrade(), GRADE)
        .number("minCoverM", route.minCoverM(), LENGTH)
        .number("maxDepthM", route.maxDepthM(), LENGTH)
        .integer("gradeBreaks", route.gradeBreaks())
        .number("searchPrice", route.searchPrice(), 2);
    if (takeOff.isPresent()) {
      json.number("excavationM3", takeOff.get().dugM3(), VOLUME);
    }
    if (takeOff.filter(TakeOff::priced).isPresent()) {
      json.number("price", takeOff.get().total(), 2);
    }
    json.texts("crosses", route.crosses());
    json.objects("bores", route.bores(), this::writeBore);
    json.texts("reasons", route.reasons()).texts("cautions", route.cautions());
    writeAudit(route.audit());
    if (result.design(route).isPresent()) {
      new DesignJson(json, result).write(result.design(route).get());
    }
    if (result.effect(route).isPresent()) {
      new EffectJson(json).write(result.effect(route).get());
    }
  }

  private void writeBore(Bore bore) throws IOException {
    json.integer("line", bore.line())
        .number("fromM", bore.fromM(), LENGTH)
        .number("toM", bore.toM(), LENGTH)
        .integer("count", bore.pipes().count());
    writePipe(json, bore.pipes().pipe());
  }

  static void writePipe(JsonText json, Pipe pipe) throws IOException {
    json.open("pipe")
        .text("name", pipe.words())
        .text("material", Words.of(pipe.material()))
        .flag("perforated", pipe.perforated())
        .number("nominalIn", pipe.nominalIn(), 2)
        .number("insideM", pipe.insideM(), DIAMETER)
        .number("outsideM", pipe.outsideM(), DIAMETER)
        .number("n", pipe.n(), LENGTH)
        .number("perforationM2PerM", pipe.perforationM2PerM(), DIAMETER)
        .end();
  }

  void write(Rejection rejection) throws IOException {
    writeHead(rejection.id(), rejection.kind(), rejection.outletId(), rejection.vertices());
    json.open("reason").text("code", rejection.code()).text("sentence", rejection.sentence()).end();
    json.objects(
        "relax",
        rejection.relax(),
        relaxation ->
            json.text("limit", relaxation.limit())
                .number("by", relaxation.by(), GRADE)
                .text("unit", relaxation.unit()));
    json.number("shortfallM", rejection.shortfallM(), LENGTH);
  }

  private void writeHead(String id, DrainKind kind, String outletId, List<Coordinate> vertices)
      throws IOException {
    json.text("id", id).text("kind", kind.word()).text("outletId", outletId);
    writeVertices(vertices);
  }

  private void writeLine(DrainLine line) throws IOException {
    writeVertices(line.vertices());
    json.objects("stations", line.stations(), this::writeStation);
  }

  private void writeVertices(List<Coordinate> vertices) throws IOException {
    json.array(
        "vertices",
        vertices,
        point -> json.pair(crs.toCrsUnit(point.x), crs.toCrsUnit(point.y), LENGTH));
  }

  private void writeStation(Station station) throws IOException {
    json.number("stationM", station.stationM(), LENGTH)
        .number("x", crs.toCrsUnit(station.x()), LENGTH)
        .number("y", crs.toCrsUnit(station.y()), LENGTH)
        .number("groundM", station.groundM(), LENGTH)
        .number("invertM", station.invertM(), LENGTH)
        .number("coverM", station.coverM(), LENGTH)
        .number("depthM", station.depthM(), LENGTH)
        .number("grade", station.grade(), GRADE)
        .text("span", Words.of(station.span()));
  }

  private void writeAudit(Audit audit) throws IOException {
    json.open("audit").flag("passed", audit.passed());
    json.objects(
        "checks",
        audit.checks(),
        check ->
            json.text("name", check.name())
                .flag("passed", check.passed())
                .number("worst", check.worst(), GRADE)
                .number("limit", check.limit(), GRADE)
                .text("unit", check.unit())
                .number("atStationM", check.atStationM(), LENGTH));
    json.end();
  }
}
