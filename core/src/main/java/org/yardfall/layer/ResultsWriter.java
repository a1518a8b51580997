package org.yardfall.layer;

import static org.yardfall.layer.JsonText.AREA;
import static org.yardfall.layer.JsonText.DIAMETER;
import static org.yardfall.layer.JsonText.FLOW;
import static org.yardfall.layer.JsonText.GRADE;
import static org.yardfall.layer.JsonText.LENGTH;
import static org.yardfall.layer.JsonText.VOLUME;

import java.io.IOException;
import java.io.OutputStream;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.drain.DrainDesign;
import org.yardfall.drain.TakeOff;
import org.yardfall.elevation.GridFrame;
import org.yardfall.elevation.Terrain;
import org.yardfall.runoff.BoundaryFlow;
import org.yardfall.runoff.InflowLedger;
import org.yardfall.runoff.Storm;
import org.yardfall.site.DrainLimits;
import org.yardfall.site.Outlet;
import org.yardfall.site.Parcel;
import org.yardfall.site.Prices;
import org.yardfall.site.Site;
import org.yardfall.site.StormInput;
import org.yardfall.site.UnitSystem;
import org.yardfall.site.WorkingCrs;
import org.yardfall.trench.MetrePrice;
import org.yardfall.trench.Restoration;
import org.yardfall.trench.TrenchSection;
import org.yardfall.water.AlteredCell;
import org.yardfall.water.Catchment;
import org.yardfall.water.Freeboard;
import org.yardfall.water.LowSpot;
import org.yardfall.water.StandingWater;
import org.yardfall.water.StandingWater.Pond;

/**
 * Writes {@code results.json}: everything found out, in SI units, as the schema {@value #SCHEMA}
 * beside this class describes. Coordinates {@code x, y} are those of the working CRS in its own
 * unit; everything else is in metres and what follows from them, and its key ends in the unit.
 */
public final class ResultsWriter {

  /** Version of the form of {@code results.json}. */
  public static final int SCHEMA_VERSION = 1;

  /** Name of the JSON Schema (draft 2020-12), a resource of this package. */
  public static final String SCHEMA = "results.schema.json";

  private final Result result;
  private final WorkingCrs crs;
  private final JsonText json;

  private ResultsWriter(Result result, JsonText json) {
    this.result = result;
    this.crs = result.site().crs();
    this.json = json;
  }

  /**
   * Writes a result. The stream is not closed.
   *
   * @param moreWarnings what was odd in the writing of the other files
   */
  public static void write(Result result, List<String> moreWarnings, OutputStream out)
      throws IOException {
    try (JsonText json = new JsonText(out)) {
      new ResultsWriter(result, json).writeAll(moreWarnings);
    }
    out.flush();
  }

  private void writeAll(List<String> moreWarnings) throws IOException {
    Set<String> warnings = new LinkedHashSet<>(result.warnings());
    warnings.addAll(moreWarnings);
    json.open().integer("schemaVersion", SCHEMA_VERSION);
    writeSite();
    json.objects(
        "assumptions",
        result.assumptions(),
        assumption ->
            json.text("about", assumption.about())
                .text("value", assumption.value())
                .text("source", assumption.source()));
    json.texts("warnings", warnings).texts("cautions", result.cautions());
    writeTerrain();
    writeLowSpots();
    json.objects("inflow", result.flows(), this::writeFlow);
    json.objects("outlets", result.outlets(), this::writeOutlet);
    RouteJson routes = new RouteJson(json, result);
    json.objects("routes", result.plan().routes(), routes::write);
    json.objects("rejected", result.plan().rejected(), routes::write);
    json.array("takeOff", result.designs(), this::writeTakeOff);
    json.end();
  }

  private void writeSite() throws IOException {
    Site site = result.site();
    json.open("site").text("name", site.name()).text("crs", crs.name());
    json.number("metresPerUnit", crs.metresPerUnit(), 16);
    if (site.lot().isPresent()) {
      writeLot(site.lot().get());
    }
    writeStorm(site.storm());
    json.open("soil").text("group", String.valueOf(site.soil().group()));
    json.number("conductivityMPerS", site.soil().conductivityMS(), 12);
    json.number("waterTableM", site.soil().waterTableM(), LENGTH)
        .number("waterTableDepthM", site.soil().waterTableDepthM(), LENGTH)
        .number("impermeableDepthM", site.soil().impermeableDepthM(), LENGTH)
        .number("rockDepthM", site.soil().rockDepthM(), LENGTH)
        .number("frostDepthM", site.soil().frostDepthM(), LENGTH)
        .text("filterClass", Words.of(site.soil().filterClass()));
    if (site.soil().relief() != null) {
      json.open("relief")
          .number("tableDepthM", site.soil().relief().tableDepthM(), LENGTH)
          .number("dischargeMPerS", site.soil().relief().dischargeMS(), 12)
          .end();
    }
    json.end();
    json.objects(
        "seeps",
        site.seeps(),
        seep -> json.text("id", seep.id()).number("waterDepthM", seep.waterDepthM(), LENGTH));
    writeLimits(site.drain());
    writeTrench(MetrePrice.of(site));
    json.open("prices");
    for (var price : site.prices().perUnit().entrySet()) {
      json.number(Words.of(price.getKey()), price.getValue(), 6);
    }
    json.end().end();
  }

  private void writeLot(Parcel lot) throws IOException {
    json.open("lot").text("id", lot.id()).number("areaM2", lot.outline().getArea(), AREA);
    Optional<Catchment> catchment =
        result.water().catchments().stream().filter(c -> c.of().equals("lot")).findFirst();
    if (catchment.isPresent()) {
      json.number("catchmentM2", catchment.get().areaM2(), AREA);
      json.text("catchmentCutOff", catchment.get().cutOff());
    }
    if (result.ledger().isPresent()) {
      new EffectJson(json).writeBalance(result.ledger().get().balance());
    }
    json.end();
  }

  private void writeStorm(StormInput given) throws IOException {
    Optional<Storm> storm = result.ledger().map(InflowLedger::storm);
    json.open("storm");
    if (given.table() != null) {
      json.text("table", String.valueOf(given.table().getFileName()));
    }
    json.number(
        "depthM", storm.map(s -> OptionalDouble.of(s.depthM())).orElse(given.depthM()), LENGTH);
    json.number(
        "durationS", storm.map(s -> OptionalDouble.of(s.durationS())).orElse(given.durationS()), 1);
    json.number(
        "returnPeriodYears",
        storm.map(Storm::returnPeriodYears).orElse(given.returnPeriodYears()),
        2);
    json.end();
  }

  private void writeLimits(DrainLimits limits) throws IOException {
    json.open("drain")
        .number("minGrade", limits.minGrade(), GRADE)
        .number("maxGrade", limits.maxGrade(), GRADE)
        .number("minCoverM", limits.minCoverM(), LENGTH)
        .number("maxDepthM", limits.maxDepthM(), LENGTH)
        .number("setbackM", limits.setbackM(), LENGTH)
        .number("fromBuildingM", limits.fromBuildingM(), LENGTH)
        .number("trenchWidthM", limits.trenchWidthM(), LENGTH)
        .number("pipeOutsideM", limits.pipeOutsideM(), DIAMETER)
        .number("pipeInsideM", limits.pipeInsideM(), DIAMETER)
        .number("verticalClearanceM", limits.verticalClearanceM(), LENGTH)
        .number("boreMaxLengthM", limits.boreMaxLengthM(), LENGTH)
        .text("gradeLine", Words.of(limits.gradeLine()))
        .end();
  }

  /** What quantities follow from, beside the limits and the pipes. */
  private void writeTrench(MetrePrice usual) throws IOException {
    json.open("trench")
        .number("bedM", usual.section().bedM(), LENGTH)
        .number("sodM", Restoration.SOD.thicknessM(), LENGTH)
        .number("pavementM", Restoration.PAVEMENT.thicknessM(), LENGTH)
        .number("fabricLapM", TrenchSection.LAP_M, LENGTH)
        .text("stone", usual.stone().size())
        .number("stoneTM3", usual.stone().bulkDensityTM3(), DIAMETER)
        .number("stoneVoids", usual.stone().porosity(), GRADE)
        .number("swell", usual.swell().share(), GRADE)
        .number("pricedDepthM", Prices.REFERENCE_DEPTH_M, LENGTH)
        .end();
  }

  private void writeTerrain() throws IOException {
    Terrain terrain = result.terrain();
    GridFrame frame = terrain.ground().frame();
    json.open("terrain").texts("sources", terrain.sources());
    json.integer("cols", frame.cols()).integer("rows", frame.rows());
    json.number("cellM", frame.cellM(), 6);
    json.number("west", crs.toCrsUnit(frame.westM()), LENGTH);
    json.number("north", crs.toCrsUnit(frame.northM()), LENGTH);
    json.number("accuracyM", terrain.accuracyM(), LENGTH);
    json.flag("accuracyStated", terrain.accuracyStated());
    json.number("stepM", terrain.stepM(), 6).text("verticalDatum", terrain.verticalDatum());
    if (result.standing().isPresent()) {
      writeStormWater("stormWater", result.standing().get());
    }
    if (result.blocked().isPresent()) {
      writeStormWater("stormWaterBlocked", result.blocked().get());
    }
    json.objects("alteredCells", result.water().altered(), this::writeAltered);
    new HouseJson(json, crs).write(result);
    if (result.levelled().isPresent()) {
      new LevelledJson(json, crs).write(result.levelled().get());
    }
    json.end();
  }

  private void writeAltered(AlteredCell cell) throws IOException {
    Coordinate centre = result.water().ground().frame().centre(cell.cell());
    json.text("by", cell.by());
    at("x", "y", centre.x, centre.y);
    if (!Float.isNaN(cell.beforeM())) {
      json.number("beforeM", cell.beforeM(), LENGTH);
    }
    json.number("afterM", cell.afterM(), LENGTH);
  }

  private void writeStormWater(String key, StandingWater standing) throws IOException {
    json.open(key)
        .number("rainM3", standing.rainM3(), VOLUME)
        .number("infiltratedM3", standing.infiltratedM3(), VOLUME)
        .number("standingM3", standing.standingM3(), VOLUME)
        .number("leftM3", standing.leftM3(), VOLUME)
        .number("inletM3", standing.inletM3(), VOLUME)
        .end();
  }

  private void writeLowSpots() throws IOException {
    Map<String, Pond> ponds = ponds(result.standing());
    Map<String, Pond> blocked = ponds(result.blocked());
    json.objects(
        "lowSpots",
        result.water().lowSpots(),
        spot -> {
          writeLowSpot(spot);
          if (ponds.containsKey(spot.id())) {
            writePond("standing", ponds.get(spot.id()));
          }
          if (blocked.containsKey(spot.id())) {
            writePond("standingBlocked", blocked.get(spot.id()));
          }
          json.objects("freeboard", result.freeboard(spot), this::writeFreeboard);
        });
  }

  private static Map<String, Pond> ponds(Optional<StandingWater> standing) {
    return standing.map(StandingWater::ponds).orElse(List.of()).stream()
        .collect(Collectors.toMap(Pond::lowSpotId, Function.identity()));
  }

  private void writeLowSpot(LowSpot spot) throws IOException {
    json.text("id", spot.id());
    at("x", "y", spot.deepest().x, spot.deepest().y);
    at("spillX", "spillY", spot.spillPoint().x, spot.spillPoint().y);
    json.number("spillBearingDeg", spot.spillBearingDeg(), 1)
        .number("bottomM", spot.bottomM(), LENGTH)
        .number("spillM", spot.spillM(), LENGTH)
        .number("depthM", spot.depthM(), LENGTH)
        .number("areaM2", spot.areaM2(), AREA)
        .number("volumeM3", spot.volumeM3(), VOLUME)
        .number("contributingM2", spot.contributingM2(), AREA)
        .flag("atLeast", spot.atLeast())
        .text("parentId", spot.parentId())
        .texts("childIds", spot.childIds())
        .text("spillsToId", spot.spillsToId())
        .text("doubtful", spot.doubtful());
    json.objects(
        "stages",
        spot.stages(),
        stage ->
            json.number("levelM", stage.levelM(), LENGTH)
                .number("areaM2", stage.areaM2(), AREA)
                .number("volumeM3", stage.volumeM3(), VOLUME));
  }

  private void writePond(String key, Pond pond) throws IOException {
    json.open(key)
        .number("levelM", pond.levelM(), LENGTH)
        .number("depthM", pond.depthM(), LENGTH)
        .number("areaM2", pond.areaM2(), AREA)
        .number("volumeM3", pond.volumeM3(), VOLUME)
        .number("overflowM3", pond.overflowM3(), VOLUME)
        .text("overflowTo", pond.overflowTo())
        .end();
  }

  private void writeFreeboard(Freeboard lot) throws IOException {
    json.text("parcelId", lot.parcelId())
        .flag("atBuilding", lot.atBuilding())
        .number("groundM", lot.groundM(), LENGTH)
        .number("freeboardM", lot.freeboardM(), LENGTH);
  }

  private void writeFlow(BoundaryFlow flow) throws IOException {
    json.text("id", flow.id())
        .text("direction", flow.enters() ? "in" : "out")
        .text("neighbour", flow.neighbour());
    at("x", "y", flow.at().x, flow.at().y);
    json.number("bearingDeg", flow.bearingDeg(), 2)
        .number("widthM", flow.widthM(), LENGTH)
        .number("areaM2", flow.areaM2(), AREA)
        .flag("atLeast", flow.atLeast())
        .number("volumeM3", flow.volumeM3(), VOLUME)
        .number("peakM3s", flow.peakM3S(), FLOW)
        .number("timeS", flow.time().seconds(), 1)
        .number("intensityMPerS", flow.intensityMS(), 12)
        .number("coefficient", flow.coefficient(), 6)
        .flag("concentrated", flow.concentrated())
        .text("surfaces", flow.surfaces());
    json.objects(
        "covers",
        flow.runoff().parts(),
        part ->
            json.text("cover", Words.of(part.kind()))
                .number("areaM2", part.areaM2(), AREA)
                .number("curveNumber", part.curveNumber(), 2)
                .number("depthM", part.depthM(), 6));
    json.objects(
        "parcels",
        flow.areaByParcelM2().entrySet(),
        parcel -> json.text("parcel", parcel.getKey()).number("areaM2", parcel.getValue(), AREA));
  }

  private void writeOutlet(Outlet outlet) throws IOException {
    json.text("id", outlet.id()).text("kind", outlet.kind().word());
    at("x", "y", outlet.at().x, outlet.at().y);
    json.number("invertM", outlet.invertM(), LENGTH)
        .number("waterLevelM", outlet.waterLevelM(), LENGTH)
        .number("usualLevelM", outlet.usualLevelM(), LENGTH)
        .number("lidM", outlet.lidM(), LENGTH)
        .text("permitNote", outlet.permitNote())
        .flag("found", result.plan().found().contains(outlet));
  }

  private void writeTakeOff(DrainDesign design) throws IOException {
    for (TakeOff.Line line : design.takeOff().lines()) {
      json.open()
          .text("routeId", design.routeId())
          .text("code", line.code())
          .text("item", line.item())
          .text("unit", line.measure().unit(UnitSystem.METRIC))
          .number("needed", line.needed(), VOLUME)
          .number("sold", line.sold(), VOLUME)
          .text("rule", line.rule())
          .text("how", line.how())
          .text("priceItem", line.priceItem() == null ? "" : Words.of(line.priceItem()))
          .flag("inRoutePrice", line.inRoutePrice())
          .number("unitPrice", line.unitPrice(), 6)
          .number("amount", line.amount(), 2)
          .number("netAmount", line.netAmount(), 2)
          .end();
    }
  }

  private void at(String keyX, String keyY, double xM, double yM) throws IOException {
    json.number(keyX, crs.toCrsUnit(xM), LENGTH).number(keyY, crs.toCrsUnit(yM), LENGTH);
  }
}
