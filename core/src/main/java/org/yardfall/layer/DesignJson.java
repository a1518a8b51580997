package org.yardfall.layer;

import static org.yardfall.layer.JsonText.AREA;
import static org.yardfall.layer.JsonText.FLOW;
import static org.yardfall.layer.JsonText.GRADE;
import static org.yardfall.layer.JsonText.LENGTH;
import static org.yardfall.layer.JsonText.VOLUME;

import java.io.IOException;
import java.util.List;
import org.yardfall.drain.DrainCatchment;
import org.yardfall.drain.DrainDesign;
import org.yardfall.drain.DrainFindings;
import org.yardfall.drain.LineDesign;
import org.yardfall.drain.OverlandPath;
import org.yardfall.drain.ReliefDrains;
import org.yardfall.drain.StretchDesign;
import org.yardfall.pipe.HydraulicGradeLine;
import org.yardfall.pipe.Pipe;
import org.yardfall.route.Station;
import org.yardfall.site.Outlet;
import org.yardfall.site.Prices;
import org.yardfall.site.Site;
import org.yardfall.site.UnitSystem;
import org.yardfall.trench.MetrePrice;

/**
 * How a route is built, in {@code results.json}: whose water, which pipe, how high the water
 * stands, how long it takes to leave, filters, price.
 */
final class DesignJson {

  /** Decimals of times in seconds. */
  private static final int TIME = 1;

  private static final int RATIO = 4;
  private static final int MONEY = 2;

  private final JsonText json;
  private final Site site;

  DesignJson(JsonText json, Result result) {
    this.json = json;
    this.site = result.site().withOutlets(result.outlets());
  }

  void write(DrainDesign design) throws IOException {
    json.open("design");
    writeCatchment(design.catchment());
    json.objects("lines", design.lines(), this::writeLine);
    json.flag("overloaded", design.overloaded());
    if (design.tooSmall().isPresent()) {
      json.text("needsPipe", design.tooSmall().get().words());
    }
    writeOutlet(design);
    writeGroundwater(design);
    writeEmptying(design);
    json.objects(
        "filters",
        design.filters(),
        check ->
            json.text("name", check.name())
                .flag("passed", check.passed())
                .number("value", check.value(), GRADE)
                .text("bound", check.bound())
                .number("limit", check.limit(), GRADE)
                .text("unit", check.unit())
                .text("source", check.source()));
    writePrice(design);
    if (design.overland().isPresent()) {
      writeOverland(design.overland().get());
    }
    json.texts("findings", DrainFindings.of(design, site, UnitSystem.METRIC)).end();
  }

  private void writeOverland(OverlandPath path) throws IOException {
    json.open("overland");
    json.array(
        "vertices",
        List.of(path.line().getCoordinates()),
        point ->
            json.pair(
                site.crs().toCrsUnit(point.x), site.crs().toCrsUnit(point.y), JsonText.LENGTH));
    json.number("lengthM", path.line().getLength(), LENGTH).number("areaM2", path.areaM2(), AREA);
    json.objects(
        "pools",
        path.pools(),
        pool ->
            json.text("lowSpotId", pool.lowSpotId())
                .number("depthM", pool.depthM(), LENGTH)
                .number("spillM", pool.spillM(), LENGTH));
    json.objects(
        "onto",
        path.parcels(),
        onto -> json.text("parcelId", onto.parcelId()).flag("rightOfWay", onto.rightOfWay()));
    json.texts("openings", path.openings());
    json.objects(
        "buildings",
        path.buildings(),
        beside ->
            json.text("building", beside.buildingId())
                .number("freeboardM", beside.freeboardM(), LENGTH));
    json.text("outletId", path.outletId()).text("sentence", path.sentence()).end();
  }

  private void writeCatchment(DrainCatchment catchment) throws IOException {
    json.open("catchment")
        .number("areaM2", catchment.areaM2(), AREA)
        .number("beyondM2", catchment.beyondM2(), AREA)
        .number("volumeM3", catchment.volumeM3(), VOLUME);
    json.objects(
        "lowSpots",
        catchment.served(),
        spot ->
            json.text("id", spot.id())
                .text("line", spot.line() == 0 ? "main" : "branch " + spot.line())
                .number("stationM", spot.stationM(), LENGTH)
                .number("volumeM3", spot.volumeM3(), VOLUME)
                .number("belowM3", spot.belowM3(), VOLUME)
                .number("belowM2", spot.belowM2(), AREA)
                .number("catchmentM2", spot.catchmentM2(), AREA)
                .number("beyondShare", spot.beyondShare(), RATIO));
    json.end();
  }

  private void writeLine(LineDesign line) throws IOException {
    json.text("name", line.name());
    json.objects("stretches", line.stretches(), this::writeStretch);
    HydraulicGradeLine hydraulic = line.hydraulic();
    json.open("hydraulic");
    json.objects(
        "points",
        hydraulic.points().stream().filter(point -> isStation(point, line)).toList(),
        point ->
            json.number("stationM", point.node().stationM(), LENGTH)
                .number("levelM", point.levelM(), LENGTH)
                .number("overGroundM", point.overGroundM(), LENGTH)
                .flag("full", point.full()));
    json.number("fullM", hydraulic.fullM(), LENGTH)
        .number("backwaterM", hydraulic.backwaterM(), LENGTH)
        .number("outletLevelM", hydraulic.outletLevelM(), LENGTH)
        .flag("surcharges", hydraulic.surcharges())
        .number("worstStationM", hydraulic.worst().node().stationM(), LENGTH)
        .number("worstOverGroundM", hydraulic.worst().overGroundM(), LENGTH)
        .end();
  }

  /** The line is computed more closely than the stations at which it is written. */
  private static boolean isStation(HydraulicGradeLine.Point point, LineDesign line) {
    return line.line().stations().stream()
        .mapToDouble(Station::stationM)
        .anyMatch(at -> Math.abs(at - point.node().stationM()) < 1e-9);
  }

  private void writeStretch(StretchDesign stretch) throws IOException {
    Pipe pipe = stretch.pipe();
    json.number("fromM", stretch.fromM(), LENGTH)
        .number("toM", stretch.toM(), LENGTH)
        .text("span", Words.of(stretch.span()))
        .text("cover", Words.of(stretch.cover()))
        .flag("inRootZone", stretch.inRootZone())
        .number("grade", stretch.grade(), GRADE);
    RouteJson.writePipe(json, pipe);
    json.integer("count", stretch.count());
    json.number("flowM3s", stretch.flowM3S(), FLOW)
        .number("arrivingM3s", stretch.arrivingM3S(), FLOW)
        .number("capacityM3s", stretch.capacityM3S(), FLOW)
        .number("loading", stretch.loading(), RATIO)
        .number("depthM", stretch.depthM(), LENGTH)
        .number("velocityMPerS", stretch.velocityMS(), LENGTH)
        .number("fullVelocityMPerS", stretch.fullVelocityMS(), LENGTH)
        .number("areaM2", stretch.areaM2(), AREA)
        .number("timeS", stretch.timeS(), TIME)
        .number("upstreamM", stretch.upstreamM(), LENGTH)
        .integer("tradeNominalIn", stretch.tradeNominalIn())
        .number("groundwaterM3s", stretch.groundwaterM3S(), FLOW)
        .number("meetsM2PerS", stretch.meetsM2S(), FLOW)
        .number("intakeM2PerS", stretch.intakeM2S(), FLOW)
        .flag("overtopped", stretch.overtopped());
    if (stretch.intakeLimit() != null) {
      json.text("intakeLimit", Words.of(stretch.intakeLimit()));
    }
  }

  private void writeOutlet(DrainDesign design) throws IOException {
    json.open("outlet")
        .text("id", design.outletId())
        .number("peakM3s", design.outletM3S(), FLOW)
        .number("backwaterM", design.main().hydraulic().backwaterM(), LENGTH);
    for (Outlet outlet : site.outlets()) {
      if (outlet.id().equals(design.outletId())) {
        json.text("kind", outlet.kind().word());
        List<Station> stations = design.main().line().stations();
        double invert = stations.get(stations.size() - 1).invertM();
        if (site.outletRules().pumped()) {
          break; // what stands outside does not reach its drain
        }
        if (outlet.waterLevelM().isPresent()) {
          json.number("waterOverInvertM", outlet.waterLevelM().getAsDouble() - invert, LENGTH);
        }
        if (outlet.lidM().isPresent()) {
          double under = design.lowestOpenGroundM() - outlet.lidM().getAsDouble();
          json.number("lidUnderGroundM", under, LENGTH).flag("lidOpens", under > 0);
        }
        break;
      }
    }
    json.end();
  }

  private void writeGroundwater(DrainDesign design) throws IOException {
    json.open("groundwater")
        .flag("known", site.soil().groundwaterKnown())
        .number("inflowM3s", design.groundwaterM3S(), FLOW);
    if (design.relief().isPresent()) {
      ReliefDrains relief = design.relief().get();
      json.open("relief")
          .number("spacingM", relief.spacingM(), LENGTH)
          .number("drainDepthM", relief.drainDepthM(), LENGTH)
          .number("headM", relief.headM(), LENGTH)
          .number("baseM", relief.baseM(), LENGTH)
          .number("equivalentDepthM", relief.equivalentDepthM(), LENGTH)
          .end();
    }
    json.end();
  }

  private void writeEmptying(DrainDesign design) throws IOException {
    json.open("emptying")
        .text("slowest", Words.of(design.emptying().slowest()))
        .number("seconds", design.emptying().seconds(), TIME);
    for (var limit : design.emptying().secondsByLimit().entrySet()) {
      json.number(Words.of(limit.getKey()) + "S", limit.getValue(), TIME);
    }
    json.end();
  }

  private void writePrice(DrainDesign design) throws IOException {
    json.open("price")
        .flag("complete", design.takeOff().complete())
        .number("known", design.takeOff().total(), MONEY)
        .number("knownNet", design.takeOff().netTotal(), MONEY)
        .number("largerPipes", design.takeOff().largerPipes(), MONEY)
        .open("standIns");
    MetrePrice prices = MetrePrice.of(site);
    for (Prices.Item item : design.takeOff().missing()) {
      if (Prices.Item.WEIGHED.contains(item)) {
        json.number(Words.of(item), prices.unit(item), 4);
      }
    }
    json.end().end();
  }
}
