package org.yardfall.site;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.lang.reflect.RecordComponent;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.TreeSet;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;

/** What the writer writes, the reader reads back as the same site, whichever keys were given. */
class SiteRoundTripTest {

  private static final Path LOTS =
      Path.of("src/test/resources/org/yardfall/site/parcels").toAbsolutePath();

  /** Every documented key with some value; a site file is any choice of them. */
  private static final List<String> KEYS =
      List.of(
          "site.name: \"Lot \\\"7\\\" # \\u202e =cmd\"",
          "site.crs: EPSG:2154",
          "site.ortho: lots.shp",
          "elevation.vertical-unit: ftUS",
          "elevation.vertical-datum: local",
          "elevation.accuracy: 4 in",
          "elevation.date: 2024-11-03",
          "elevation.crs: EPSG:2154",
          "elevation.shots: lots.dbf",
          "elevation.columns: PNEZD",
          "elevation.unit: ftUS",
          "elevation.codes: { EP: breakline, CB: outlet, BLD: building-corner, TR: ignore }",
          "elevation.surface: EG",
          "elevation.cell: 0.25 m",
          "elevation.longest-edge: 31 ft",
          "elevation.correct: true",
          "parcels.id: IDU",
          "parcels.crs: EPSG:2154",
          "parcels.unit: ft",
          "buildings.id: OBJECT_RID",
          "soil.group: b",
          "soil.conductivity: 0.13 in/h",
          "soil.water-table: 788.4 ft",
          "soil.grains: { d15: 0.011 mm, d50: 0.07 mm, d85: 0.3 mm, uniformity: 6.1, fines: 52 % }",
          "soil.impermeable-depth: 9 ft",
          "soil.rock-depth: 5 ft",
          "soil.frost-depth: 42 in",
          "soil.filter-class: critical",
          "soil.curve-numbers: { lawn: 84, woods: 79.5 }",
          "outlet-rules.from-house: 12 ft",
          "outlet-rules.from-line: 6 ft",
          "outlet-rules.from-right-of-way: 7 ft",
          "outlet-rules.dry-well-from-house: 15 ft",
          "outlet-rules.dry-well-conductivity: 1 in/h",
          "outlet-rules.splash-block-slope: 1 %",
          "outlet-rules.steepest-slope: 12 %",
          "outlet-rules.freeboard: 8 in",
          "outlet-rules.lid-head: 6 in",
          "outlet-rules.pumped: yes",
          "outlet-rules.outage: 3 h",
          "outlet-rules.pumped-to-street: yes",
          "storm.depth: 2.7 in",
          "storm.duration: 6 h",
          "storm.return-period: 10",
          "drain.min-grade: 1/8 in/ft",
          "drain.max-grade: 15 %",
          "drain.min-cover: 7 in",
          "drain.max-depth: 3 ft 7 in",
          "drain.setback: 2.3 ft",
          "drain.from-building: 3.1 ft",
          "drain.trench-width: 17 in",
          "drain.pipe: 6 in",
          "drain.pipe-outside: 180 mm",
          "drain.vertical-clearance: 0.4 m",
          "drain.bore-max-length: 19 ft",
          "drain.grade-line: least-digging",
          "prices.trench: 12.3 per ft",
          "prices.stone: 41 per yd3",
          "prices.stone-sold-by: ton",
          "prices.fabric: 1.1 per sq ft",
          "prices.pipe: 3 per ft",
          "prices.solid-pipe: 4 per ft",
          "prices.haul-off: 21 per cu yd",
          "prices.sod: 7 per m2",
          "prices.bore: 90 per ft",
          "prices.fitting: 9.5",
          "prices.tree-zone: 11 per ft",
          "prices.pavement: 13 per sq ft",
          "prices.pump: 650",
          "prices.sump: 900",
          "prices.valve: 85");

  @Property(tries = 60, seed = "20261125")
  void anyChoiceOfKeysSurvives(@ForAll Random random) throws IOException {
    check(KEYS.stream().filter(k -> random.nextBoolean()).toList());
  }

  @Test
  void allAndNoKeysSurvive() throws IOException {
    check(KEYS);
    check(List.of());
    check(
        List.of(
            "soil.conductivity: 0.13 in/h",
            "soil.water-table-depth: 14 in",
            "soil.relief: { table-depth: 2 ft, discharge: 0.25 in/d }"));
  }

  @Test
  void aSiteInFeetSurvivesToTheBit() throws IOException {
    Path folder = Files.createTempDirectory("site");
    Path dem = Files.createFile(folder.resolve("dem.tif"));
    Random random = new Random(7);
    ShortForm form = SiteReader.shortForm().elevation(dem).crs("EPSG:2263");
    for (int i = 0; i < 200; i++) {
      form.outlet(980000 + random.nextInt(100000) / 64.0 + "," + 200000 * random.nextDouble());
    }
    Site site = form.read(raster -> Optional.empty());
    Files.writeString(folder.resolve("site.yml"), SiteWriter.write(site, folder));
    assertEquals(
        site.outlets(),
        SiteReader.read(folder.resolve("site.yml"), raster -> Optional.empty()).outlets());
  }

  private static void check(List<String> keys) throws IOException {
    StringBuilder text = new StringBuilder();
    TreeSet<String> sections =
        new TreeSet<>(List.of("elevation", "parcels", "buildings", "outlets", "seeps", "levelled"));
    keys.forEach(k -> sections.add(k.substring(0, k.indexOf('.'))));
    for (String section : sections) {
      text.append(section).append(":\n");
      switch (section) {
        case "elevation" -> text.append("  files: [lots.shx]\n");
        case "parcels" -> text.append("  file: lots.shp\n  lot: ").append(lot(keys)).append('\n');
        case "buildings", "seeps", "levelled" ->
            text.append("  file: lots.gpkg\n  layer: buildings\n");
        case "outlets" ->
            text.append(
                "  - { id: A, kind: ditch, at: [892123.4, 6461234.1], invert: 711.3 ft, lid: 720 ft,"
                    + " water-level: 1 ft, usual-level: 9 in, permit: \"ask: the town\" }\n");
        default -> {}
      }
      for (String key : keys) {
        if (key.startsWith(section + ".")) {
          text.append("  ").append(key.substring(section.length() + 1)).append('\n');
        }
      }
    }
    Path folder = Files.createTempDirectory("site");
    for (String part : List.of("shp", "shx", "dbf", "prj", "gpkg")) {
      Files.copy(LOTS.resolve("lots." + part), folder.resolve("lots." + part));
    }
    Path first = Files.writeString(folder.resolve("site.yml"), text);
    Site site = SiteReader.read(first, SiteRoundTripTest::lambert);
    Path elsewhere = Files.createDirectories(folder.resolve("out/deep"));
    String written = SiteWriter.write(site, elsewhere);
    Path second = Files.writeString(elsewhere.resolve("site.yml"), written);
    Site again = SiteReader.read(second, SiteRoundTripTest::lambert);
    for (RecordComponent part : Site.class.getRecordComponents()) {
      assertEquals(value(part, site), value(part, again), part.getName() + " of\n" + written);
    }
    assertEquals(written, SiteWriter.write(again, elsewhere));
    assertTrue(site.lot().isPresent());
  }

  private static Object value(RecordComponent part, Site site) {
    try {
      Object value = part.getAccessor().invoke(site);
      return value instanceof List<?> list && part.getName().equals("assumptions")
          ? list.stream()
              .filter(a -> !((Assumption) a).about().equals(DrainSection.STONE_DENSITY))
              .toList()
          : value;
    } catch (ReflectiveOperationException e) {
      throw new IllegalStateException(e);
    }
  }

  private static String lot(List<String> keys) {
    return keys.contains("parcels.id: IDU") ? "\"0040000B0926\"" : "1";
  }

  private static Optional<WorkingCrs> lambert(Path raster) {
    return Optional.of(CrsLookup.of("EPSG:2154"));
  }
}
