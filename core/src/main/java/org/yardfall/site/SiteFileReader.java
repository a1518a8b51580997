package org.yardfall.site;

import java.io.IOException;
import java.io.StringReader;
import java.nio.charset.CharacterCodingException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.yaml.snakeyaml.LoaderOptions;
import org.yaml.snakeyaml.Yaml;
import org.yaml.snakeyaml.error.MarkedYAMLException;
import org.yaml.snakeyaml.error.YAMLException;
import org.yaml.snakeyaml.nodes.Node;

/** Reads the site file itself, without the files it names. */
final class SiteFileReader {

  private final Path folder;
  private final String file;
  private final Problems problems;
  private final List<Assumption> assumptions = new ArrayList<>();

  private SiteFileReader(Path siteFile, Problems problems) {
    this.folder = siteFile.toAbsolutePath().normalize().getParent();
    this.file = siteFile.getFileName().toString();
    this.problems = problems;
  }

  /**
   * The site as asked for. What is wrong is added to the problems and the reading goes on.
   *
   * @throws BadInputException if the file is missing or no YAML at all
   */
  static SiteRequest read(Path siteFile, Problems problems) {
    SiteFileReader reader = new SiteFileReader(siteFile, problems);
    return reader.request(reader.parse(siteFile));
  }

  /** Loads what parsing needs. */
  static void prepare() {
    compose("site: { accuracy: 0.1 m }");
  }

  private static Node compose(String text) {
    return new Yaml(new LoaderOptions()).compose(new StringReader(text));
  }

  private Node parse(Path siteFile) {
    if (!Files.isRegularFile(siteFile)) {
      throw new BadInputException(
          file, "there is no such file (" + siteFile + ")", "check the path");
    }
    try {
      String text = Files.readString(siteFile);
      Node root = compose(text.startsWith("\uFEFF") ? text.substring(1) : text);
      if (root == null) {
        throw new BadInputException(file, "the site file is empty", "give at least the elevation");
      }
      return root;
    } catch (CharacterCodingException e) {
      throw new BadInputException(file, "the file is not text in UTF-8", "save it as UTF-8");
    } catch (IOException e) {
      throw new BadInputException(file, "the file cannot be read (" + e.getMessage() + ")", "");
    } catch (MarkedYAMLException e) {
      int line = e.getProblemMark() == null ? 1 : e.getProblemMark().getLine() + 1;
      throw new BadInputException(
          file + " (line " + line + ")", "this is not well-formed YAML: " + e.getProblem(), "");
    } catch (YAMLException e) {
      throw new BadInputException(
          file,
          "this is not well-formed YAML: " + e.getMessage().lines().findFirst().orElse(""),
          "");
    }
  }

  private SiteRequest request(Node node) {
    YamlSection root = new YamlSection(file, "", node, problems);
    YamlSection site = root.section("site");
    String name = site.text("name").orElse("");
    String crs = site.text("crs").orElse(null);
    Path ortho = site.text("ortho").map(this::path).orElse(null);
    site.refuseUnknownKeys();
    ElevationInput elevation = elevation(root);
    YamlSection parcels = root.section("parcels");
    String lot = parcels.text("lot").orElse(null);
    List<String> rightOfWay = parcels.texts("right-of-way");
    LayerSource parcelSource = layer(parcels);
    if (lot != null && parcelSource == null) {
      parcels.problem("lot", "a lot is named but no file of parcels", "give parcels.file");
    }
    List<SiteRequest.PlacedOutlet> outlets = new ArrayList<>();
    LayerSource outletSource = null;
    if (!root.isList("outlets") && root.section("outlets").text("file").isPresent()) {
      outletSource = layer(root.section("outlets"));
    } else {
      int number = 1;
      for (YamlSection outlet : root.sections("outlets")) {
        outlet(outlet, number++).ifPresent(outlets::add);
      }
    }
    SiteInputs inputs =
        new SiteInputs(
            crs,
            ortho,
            parcelSource,
            lot,
            rightOfWay,
            layer(root.section("buildings")),
            layer(root.section("obstacles")),
            layer(root.section("crossings")),
            outletSource,
            layer(root.section("surfaces")),
            layer(root.section("openings")),
            layer(root.section("pinned")),
            layer(root.section("seeps")),
            layer(root.section("levelled")),
            layer(root.section("downspouts")));
    Soil soil = GroundSections.soil(root.section("soil"), assumptions);
    StormInput storm = GroundSections.storm(root.section("storm"), this::path, assumptions);
    DrainLimits drain = DrainSection.limits(root.section("drain"), soil, assumptions);
    Prices prices = DrainSection.prices(root.section("prices"), drain.trenchWidthM(), assumptions);
    List<Assumption> assumedRules = new ArrayList<>();
    OutletRules rules = OutletRulesSection.read(root.section("outlet-rules"), assumedRules);
    root.refuseUnknownKeys();
    return new SiteRequest(
        file,
        name,
        inputs,
        outlets,
        soil,
        storm,
        drain,
        prices,
        elevation,
        rules,
        assumptions,
        assumedRules);
  }

  private ElevationInput elevation(YamlSection root) {
    YamlSection section = root.section("elevation");
    List<String> files = new ArrayList<>(section.texts("files"));
    section.text("file").ifPresent(files::add);
    Path shots = section.text("shots").map(this::path).orElse(null);
    String columns = section.text("columns").orElse(null);
    OptionalDouble unit = section.quantity("vertical-unit", Quantities::lengthUnitM);
    String datum = section.text("vertical-datum").orElse("");
    OptionalDouble accuracy = section.quantity("accuracy", Quantities::lengthM);
    String date = section.text("date").orElse("");
    String crs = section.text("crs").orElse(null);
    ShotInput shotInput = ElevationSection.shots(section);
    section.refuseUnknownKeys();
    if (accuracy.isPresent() && accuracy.getAsDouble() < 0) {
      section.problem("accuracy", "a length cannot be negative", "");
    }
    if (files.isEmpty() && shots == null) {
      section.problem("", "no elevation is given", "give elevation.files or elevation.shots");
    }
    return new ElevationInput(
        files.stream().map(this::path).toList(),
        shots,
        columns,
        unit,
        datum,
        accuracy,
        crs,
        shotInput,
        date);
  }

  private LayerSource layer(YamlSection section) {
    Optional<String> named = section.text("file");
    String layer = section.text("layer").orElse(null);
    String crs = section.text("crs").orElse(null);
    String id = section.text("id").orElse(null);
    String unit = section.text("unit").orElse(null);
    section.quantity("unit", Quantities::lengthUnitM);
    section.refuseUnknownKeys();
    if (named.isEmpty()) {
      if (!section.isEmpty()) {
        section.problem("", "no file is given", "give its file");
      }
      return null;
    }
    return new LayerSource(path(named.get()), layer, crs, id, unit);
  }

  private Optional<SiteRequest.PlacedOutlet> outlet(YamlSection section, int number) {
    String id = section.text("id").orElse(String.valueOf(number));
    Optional<String> word = section.text("kind");
    Optional<Outlet.Kind> kind = word.flatMap(w -> Words.find(Outlet.Kind.class, w));
    double[] at = place(section);
    OptionalDouble invert = section.quantity("invert", Quantities::lengthM);
    OptionalDouble water = section.quantity("water-level", Quantities::lengthM);
    OptionalDouble usual = section.quantity("usual-level", Quantities::lengthM);
    OptionalDouble lid = section.quantity("lid", Quantities::lengthM);
    String permit = section.text("permit").orElse("");
    section.refuseUnknownKeys();
    if (word.isEmpty()) {
      section.problem("kind", "the outlet has no kind", Words.mend(Outlet.Kind.class, ""));
    } else if (kind.isEmpty()) {
      section.problem(
          "kind",
          "'" + word.get() + "' is no kind of outlet",
          Words.mend(Outlet.Kind.class, word.get()));
    }
    return kind.isEmpty() || at.length != 2
        ? Optional.empty()
        : Optional.of(
            new SiteRequest.PlacedOutlet(
                section.where(""),
                id,
                kind.get(),
                at[0],
                at[1],
                invert,
                water,
                lid,
                permit,
                usual));
  }

  private static double[] place(YamlSection section) {
    try {
      double[] at = Quantities.numbers(String.join(",", section.texts("at")));
      if (at.length == 2) {
        return at;
      }
    } catch (IllegalArgumentException e) {
      // said below, with what is expected
    }
    section.problem(
        "at", "the outlet's place is missing or not two numbers", "write at: [easting, northing]");
    return new double[0];
  }

  private Path path(String text) {
    try {
      return folder.resolve(text).normalize();
    } catch (java.nio.file.InvalidPathException e) {
      problems.add(file, "'" + text + "' is no path", "");
      return folder;
    }
  }
}
