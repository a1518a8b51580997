package org.yardfall.site;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.stream.Collectors;

/**
 * Writes a site as the site file that {@link SiteReader} reads back as the same site: what was
 * given as keys, in SI, what was assumed as comments.
 *
 * <p>A price of stone by volume is written per tonne, so the density that it took is then given, no
 * longer assumed.
 *
 * <p>Files are named relative to the folder that the text is meant for, where that is possible. A
 * site that was made in memory has no files; its layers cannot be written this way and a comment
 * says so.
 */
public final class SiteWriter {

  private static final String ORDER_SAID =
      "# Lengths and elevations are in metres unless a unit is written.\n";

  private final Site site;
  private final Path folder;
  private final StringBuilder out = new StringBuilder();

  private SiteWriter(Site site, Path folder) {
    this.site = site;
    this.folder = folder.toAbsolutePath().normalize();
  }

  /**
   * The text of the site file.
   *
   * @param site the site
   * @param folder the folder where the text will be stored; paths are made relative to it
   */
  public static String write(Site site, Path folder) {
    return new SiteWriter(site, folder).write();
  }

  private String write() {
    out.append(
        "# The site as understood. Lines behind a # were assumed; edit them to state your own.\n");
    out.append(ORDER_SAID);
    SiteInputs inputs = site.inputs();
    YamlKeys head = YamlKeys.of("name", site.name().isEmpty() ? null : YamlKeys.text(site.name()));
    givenOr("site.crs", "crs", YamlKeys.text(crsName(inputs)), head);
    head.put("ortho", path(inputs.ortho()));
    section("site", head);
    elevation(site.elevation());
    YamlKeys parcels = layer(inputs.parcels());
    parcels.put("lot", YamlKeys.text(inputs.lot()));
    if (!inputs.rightOfWay().isEmpty()) {
      parcels.put(
          "right-of-way", inputs.rightOfWay().stream().map(YamlKeys::text).toList().toString());
    }
    section("parcels", parcels);
    section("buildings", layer(inputs.buildings()));
    section("obstacles", layer(inputs.obstacles()));
    section("crossings", layer(inputs.crossings()));
    section("surfaces", layer(inputs.surfaces()));
    section("openings", layer(inputs.openings()));
    section("downspouts", layer(inputs.downspouts()));
    section("pinned", layer(inputs.pinned()));
    section("seeps", layer(inputs.seeps()));
    section("levelled", layer(inputs.levelled()));
    outlets(inputs);
    outletRules(site.outletRules());
    soil(site.soil());
    storm(site.storm());
    drain(site.drain());
    prices(site.prices());
    inMemory(inputs);
    return out.toString();
  }

  /** A code where the CRS has one; else its definition, which the reader takes as well. */
  private String crsName(SiteInputs inputs) {
    if (inputs.crs() != null) {
      return inputs.crs();
    }
    String name = site.crs().name();
    return name.startsWith("EPSG:")
        ? name
        : site.crs().crs().toWKT().replaceAll("\\s*\\R\\s*", " ");
  }

  private void elevation(ElevationInput e) {
    String files =
        e.rasters().isEmpty()
            ? null
            : "[" + String.join(", ", e.rasters().stream().map(this::path).toList()) + "]";
    section(
        "elevation",
        YamlKeys.of(
            "files",
            files,
            "shots",
            path(e.shots()),
            "columns",
            YamlKeys.text(e.shotColumns()),
            "unit",
            e.shotInput().unitM().isEmpty() ? null : unitName(e.shotInput().unitM().getAsDouble()),
            "codes",
            codes(e.shotInput()),
            "surface",
            YamlKeys.text(e.shotInput().surface()),
            "cell",
            metres(e.shotInput().cellM()),
            "longest-edge",
            metres(e.shotInput().longestEdgeM()),
            "correct",
            e.shotInput().correct() ? "true" : null,
            "vertical-unit",
            e.verticalUnitM().isEmpty() ? null : unitName(e.verticalUnitM().getAsDouble()),
            "vertical-datum",
            e.verticalDatum().isEmpty() ? null : YamlKeys.text(e.verticalDatum()),
            "accuracy",
            metres(e.accuracyM()),
            "date",
            e.date().isEmpty() ? null : YamlKeys.text(e.date()),
            "crs",
            YamlKeys.text(e.crsOverride())));
  }

  private static String codes(ShotInput shots) {
    return shots.roles().isEmpty()
        ? null
        : shots.roles().entrySet().stream()
            .map(e -> YamlKeys.text(e.getKey()) + ": " + Words.of(e.getValue()))
            .collect(Collectors.joining(", ", "{ ", " }"));
  }

  private static String unitName(double metres) {
    if (metres == WorkingCrs.INTERNATIONAL_FOOT_M) {
      return "ft";
    }
    return metres == WorkingCrs.US_SURVEY_FOOT_M ? "ftUS" : Quantities.lengthUnitName(metres);
  }

  private YamlKeys layer(LayerSource source) {
    return source == null
        ? new YamlKeys()
        : YamlKeys.of(
            "file",
            path(source.file()),
            "layer",
            YamlKeys.text(source.layer()),
            "crs",
            YamlKeys.text(source.crs()),
            "id",
            YamlKeys.text(source.idField()),
            "unit",
            YamlKeys.text(source.unit()));
  }

  private void outlets(SiteInputs inputs) {
    if (inputs.outlets() != null) {
      section("outlets", layer(inputs.outlets()));
      return;
    }
    if (site.outlets().isEmpty()) {
      return;
    }
    out.append("outlets:\n");
    for (Outlet o : site.outlets()) {
      out.append("  - ")
          .append(
              YamlKeys.of(
                      "id",
                      YamlKeys.text(o.id()),
                      "kind",
                      o.kind().word(),
                      "at",
                      "[" + crsUnits(o.at().x) + ", " + crsUnits(o.at().y) + "]",
                      "invert",
                      metres(o.invertM()),
                      "water-level",
                      metres(o.waterLevelM()),
                      "usual-level",
                      metres(o.usualLevelM()),
                      "lid",
                      metres(o.lidM()),
                      "permit",
                      o.permitNote().isEmpty() ? null : YamlKeys.text(o.permitNote()))
                  .line())
          .append('\n');
    }
  }

  private void outletRules(OutletRules rules) {
    OutletRules usual = OutletRules.usual();
    YamlKeys keys = new YamlKeys();
    rule("from-house", rules.fromHouseM(), usual.fromHouseM(), "m", keys);
    rule("from-line", rules.fromLineM(), usual.fromLineM(), "m", keys);
    rule("from-right-of-way", rules.fromRightOfWayM(), usual.fromRightOfWayM(), "m", keys);
    rule("dry-well-from-house", rules.dryWellFromHouseM(), usual.dryWellFromHouseM(), "m", keys);
    rule(
        "dry-well-conductivity",
        rules.dryWellConductivityMS(),
        usual.dryWellConductivityMS(),
        "m/s",
        keys);
    rule("lid-head", rules.lidLossM(), usual.lidLossM(), "m", keys);
    rule("splash-block-slope", rules.splashBlockSlope(), usual.splashBlockSlope(), "", keys);
    rule("steepest-slope", rules.steepestSlope(), usual.steepestSlope(), "", keys);
    rule("freeboard", rules.freeboardM(), usual.freeboardM(), "m", keys);
    keys.put("pumped", rules.pumped() ? "yes" : null);
    rule("outage", rules.outageS(), usual.outageS(), "s", keys);
    keys.put("pumped-to-street", rules.pumpedToStreet() ? "yes" : null);
    section("outlet-rules", keys);
  }

  /** A rule that is as usual, and decides nothing on this site, is not written. */
  private void rule(String key, double value, double usual, String unit, YamlKeys keys) {
    String about = "outlet-rules." + key;
    if (value != usual || site.assumptions().stream().anyMatch(a -> a.about().equals(about))) {
      givenOr(about, key, (value + " " + unit).strip(), keys);
    }
  }

  /** A plan coordinate in the CRS's own unit, such that reading it gives the same metres again. */
  private String crsUnits(double metres) {
    double value = site.crs().toCrsUnit(metres);
    for (double near : new double[] {Math.nextDown(value), Math.nextUp(value)}) {
      if (site.crs().toMetres(value) != metres && site.crs().toMetres(near) == metres) {
        value = near;
      }
    }
    return Double.toString(value);
  }

  private void soil(Soil soil) {
    YamlKeys keys = new YamlKeys();
    givenOr("soil.group", "group", String.valueOf(soil.group()), keys);
    keys.put(
        "conductivity",
        soil.conductivityMS().isEmpty() ? null : soil.conductivityMS().getAsDouble() + " m/s");
    keys.put("water-table", metres(soil.waterTableM()));
    keys.put("water-table-depth", metres(soil.waterTableDepthM()));
    keys.put("impermeable-depth", metres(soil.impermeableDepthM()));
    if (soil.relief() != null) {
      keys.put(
          "relief",
          "{ table-depth: "
              + soil.relief().tableDepthM()
              + " m, discharge: "
              + soil.relief().dischargeMS()
              + " m/s }");
    }
    keys.put("rock-depth", metres(soil.rockDepthM()));
    keys.put("frost-depth", metres(soil.frostDepthM()));
    Soil.GrainSizes g = soil.grains();
    if (g != null) {
      keys.put(
          "grains",
          "{ d15: "
              + g.d15Mm()
              + " mm, d50: "
              + g.d50Mm()
              + " mm, d85: "
              + g.d85Mm()
              + " mm, uniformity: "
              + g.uniformity()
              + ", fines: "
              + g.finesShare()
              + " }");
    }
    if (g != null || soil.filterClass() == Soil.FilterClass.CRITICAL) {
      givenOr("soil.filter-class", "filter-class", Words.of(soil.filterClass()), keys);
    }
    if (!soil.curveNumbers().isEmpty()) {
      keys.put(
          "curve-numbers",
          soil.curveNumbers().entrySet().stream()
              .map(e -> Words.of(e.getKey()) + ": " + e.getValue())
              .collect(Collectors.joining(", ", "{ ", " }")));
    }
    section("soil", keys);
  }

  private void storm(StormInput storm) {
    YamlKeys keys = new YamlKeys();
    if (storm.table() != null) {
      keys.put("table", path(storm.table()));
      keys.put("duration", seconds(storm));
    } else {
      givenOr("storm.depth", "depth", metres(storm.depthM()), keys);
      givenOr("storm.duration", "duration", seconds(storm), keys);
    }
    keys.put(
        "return-period",
        storm.returnPeriodYears().isEmpty()
            ? null
            : Double.toString(storm.returnPeriodYears().getAsDouble()));
    section("storm", keys);
  }

  private static String seconds(StormInput storm) {
    return storm.durationS().isEmpty() ? null : storm.durationS().getAsDouble() + " s";
  }

  private void drain(DrainLimits d) {
    YamlKeys keys = new YamlKeys();
    givenOr("drain.min-grade", "min-grade", Double.toString(d.minGrade()), keys);
    givenOr("drain.max-grade", "max-grade", Double.toString(d.maxGrade()), keys);
    givenOr("drain.min-cover", "min-cover", d.minCoverM() + " m", keys);
    givenOr("drain.max-depth", "max-depth", d.maxDepthM() + " m", keys);
    givenOr("drain.setback", "setback", d.setbackM() + " m", keys);
    givenOr("drain.from-building", "from-building", d.fromBuildingM() + " m", keys);
    givenOr("drain.trench-width", "trench-width", d.trenchWidthM() + " m", keys);
    pipe(d, keys);
    givenOr("drain.vertical-clearance", "vertical-clearance", d.verticalClearanceM() + " m", keys);
    givenOr("drain.bore-max-length", "bore-max-length", d.boreMaxLengthM() + " m", keys);
    givenOr("drain.grade-line", "grade-line", Words.of(d.gradeLine()), keys);
    section("drain", keys);
  }

  /** The nominal size with what differs from it; both diameters where no size has either. */
  private void pipe(DrainLimits d, YamlKeys keys) {
    boolean assumed = site.assumptions().stream().anyMatch(a -> a.about().equals("drain.pipe"));
    PipeSizes.Size size =
        assumed
            ? PipeSizes.USUAL
            : PipeSizes.ofEither(d.pipeInsideM(), d.pipeOutsideM()).orElse(null);
    if (size != null) {
      givenOr("drain.pipe", "pipe", size.nominalIn() + " in", keys);
    }
    if (size == null || size.insideM() != d.pipeInsideM()) {
      keys.put("pipe-inside", d.pipeInsideM() + " m");
    }
    if (size == null || size.outsideM() != d.pipeOutsideM()) {
      keys.put("pipe-outside", d.pipeOutsideM() + " m");
    }
  }

  private void prices(Prices prices) {
    YamlKeys keys = new YamlKeys();
    prices
        .perUnit()
        .forEach((item, price) -> keys.put(Words.of(item), price + " per " + UnitPrice.unit(item)));
    prices.stoneSoldBy().ifPresent(unit -> keys.put("stone-sold-by", Words.of(unit)));
    section("prices", keys);
  }

  private void inMemory(SiteInputs inputs) {
    List<String> lost = new ArrayList<>();
    note(lost, "parcels", inputs.parcels(), site.parcels());
    note(lost, "buildings", inputs.buildings(), site.buildings());
    note(lost, "obstacles", inputs.obstacles(), site.obstacles());
    note(lost, "crossings", inputs.crossings(), site.crossings());
    note(lost, "surfaces", inputs.surfaces(), site.surfaces());
    note(lost, "openings", inputs.openings(), site.openings());
    note(
        lost,
        "downspouts",
        inputs.downspouts(),
        site.buildings().stream().flatMap(b -> b.downspouts().stream()).toList());
    note(lost, "pinned", inputs.pinned(), site.pinned());
    note(lost, "seeps", inputs.seeps(), site.seeps());
    note(lost, "levelled", inputs.levelled(), site.levelled());
    if (!lost.isEmpty()) {
      out.append("# Given by a program, not by a file: ")
          .append(String.join(", ", lost))
          .append('\n');
    }
  }

  private static void note(List<String> lost, String name, LayerSource source, List<?> features) {
    if (source == null && !features.isEmpty()) {
      lost.add(name);
    }
  }

  /** The key, or a comment with value and source where the value was assumed. */
  private void givenOr(String about, String key, String value, YamlKeys keys) {
    site.assumptions().stream()
        .filter(a -> a.about().equals(about))
        .findFirst()
        .ifPresentOrElse(assumed -> keys.putAssumed(key, assumed), () -> keys.put(key, value));
  }

  private void section(String name, YamlKeys keys) {
    out.append(keys.block(name));
  }

  private static String metres(OptionalDouble value) {
    return value.isEmpty() ? null : value.getAsDouble() + " m";
  }

  private String path(Path path) {
    if (path == null) {
      return null;
    }
    boolean near = java.util.Objects.equals(path.getRoot(), folder.getRoot());
    return YamlKeys.text((near ? folder.relativize(path) : path).toString().replace('\\', '/'));
  }
}
