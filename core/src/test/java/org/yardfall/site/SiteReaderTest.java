package org.yardfall.site;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SiteReaderTest {

  private static final String MINIMAL = "elevation: { files: [dem.tif] }\n";

  private static final String LOT_7 =
      feature("{'LOT':'7'}", "Polygon", "[[[0,0],[20,0],[20,40],[0,40],[0,0]]]");
  private static final String LOT_8 =
      feature("{'LOT':'8'}", "Polygon", "[[[20,0],[40,0],[40,40],[20,40],[20,0]]]");

  @TempDir Path folder;

  @BeforeEach
  void files() throws IOException {
    write("dem.tif", "never opened here");
    write("intensities.csv", "never opened here");
    layer("parcels.geojson", LOT_7, LOT_8);
    layer(
        "buildings.geojson",
        feature(
            "{'id':'house','footing_bottom':'240.1 m','lowest_opening':'241.2 m'}",
            "MultiPolygon",
            "[[[[5,5],[15,5],[15,15],[5,15],[5,5]]]]"));
    layer(
        "obstacles.geojson",
        feature(
            "{'kind':'utility','clearance':'18 in','passage':'under','bottom':239.5}",
            "LineString",
            "[[0,20],[20,20]]"),
        feature("{'kind':'Tree'}", "Point", "[3,30]"));
    layer(
        "walks.geojson",
        feature(
            "{'thickness':'4 in','base':'6 in'}",
            "Polygon",
            "[[[0,16],[20,16],[20,17],[0,17],[0,16]]]"));
  }

  /** The example of the documentation, key by key. */
  @Test
  void theDocumentedExampleIsUnderstood() {
    Site site =
        read(
            """
            site:      { name: Fernhill lot 7, crs: EPSG:26915 }
            elevation: { files: [dem.tif], vertical-unit: m, vertical-datum: local, accuracy: 0.10 m }
            parcels:   { file: parcels.geojson, id: LOT, lot: "7" }
            buildings: { file: buildings.geojson }
            obstacles: { file: obstacles.geojson }
            crossings: { file: walks.geojson }
            outlets:
              - { id: CB1, kind: catch-basin, at: [500012.4, 4999981.0], invert: 241.30 m, water-level: 241.55 m, lid: 242.10 m }
            soil:      { group: D, conductivity: 1 mm/h }
            storm:     { depth: 65 mm, duration: 24 h }
            drain:     { min-grade: 1 %, max-grade: 20 %, min-cover: 6 in, max-depth: 4 ft, setback: 2 ft, from-building: 3 ft,
                         trench-width: 18 in, pipe: 4 in }
            prices:    { trench: 40 per m, stone: 55 per t }
            """);
    assertEquals("Fernhill lot 7", site.name());
    assertEquals("EPSG:26915", site.crs().name());
    assertEquals("7", site.lot().orElseThrow().id());
    assertEquals(800, site.lot().orElseThrow().outline().getArea(), 1e-6);
    assertEquals(2, site.parcels().size());
    assertEquals(240.1, site.buildings().get(0).footingBottomM().orElseThrow());
    assertEquals(241.2, site.buildings().get(0).lowestOpeningM().orElseThrow());
    Obstacle utility = site.obstacles().get(0);
    assertEquals(Obstacle.Passage.UNDER, utility.passage());
    assertEquals(0.4572, utility.clearanceM(), 1e-12);
    assertEquals(239.5, utility.bottomM().orElseThrow());
    assertEquals(0.3048, utility.verticalClearanceM(), 1e-12);
    assertEquals(Obstacle.Passage.SOLID_PIPE, site.obstacles().get(1).passage());
    assertEquals(0.1524, site.crossings().get(0).baseM(), 1e-12);
    Outlet outlet = site.outlets().get(0);
    assertEquals(Outlet.Kind.CATCH_BASIN, outlet.kind());
    assertEquals(500012.4, outlet.at().x);
    assertEquals(OptionalDouble.of(241.55), outlet.waterLevelM());
    assertEquals(OptionalDouble.of(242.1), outlet.lidM());
    assertEquals(1e-3 / 3600, site.soil().conductivityMS().orElseThrow(), 1e-18);
    assertEquals(0.065, site.storm().depthM().orElseThrow());
    assertEquals(86400, site.storm().durationS().orElseThrow());
    assertEquals(
        Given.limits(0.01, 0.2, 0.1524, 1.2192, 0.6096, 0.9144, 0.4572, 0.11684, 0.1016),
        site.drain());
    assertEquals("{TRENCH=40.0, STONE=55.0}", site.prices().perUnit().toString());
    assertEquals("local", site.elevation().verticalDatum());
    assertEquals(0.1, site.elevation().accuracyM().orElseThrow());
    assertEquals(List.of(folder.resolve("dem.tif")), site.elevation().rasters());
  }

  @Test
  void drawnDrainsRulesForOutletsRockAndFrostAreUnderstood() throws IOException {
    layer(
        "drawn.geojson",
        feature("{'id':'a','outlet':'CB1'}", "LineString", "[[3,30],[3,3]]"),
        feature("{'id':'b'}", "LineString", "[[9,30],[9,3]]"));
    Site site =
        read(
            MINIMAL
                + """
                outlets: [{ id: CB1, kind: catch-basin, at: [500003, 5000003], lid: 241 m }]
                pinned: { file: drawn.geojson }
                outlet-rules: { from-line: 3 ft, pumped: yes }
                soil: { rock-depth: 2 ft, frost-depth: 30 in }
                """);
    assertEquals(2, site.pinned().size());
    assertEquals("CB1", site.pinned().get(0).outletId());
    assertEquals("b", site.pinned().get(1).id());
    assertEquals(27, site.pinned().get(0).line().getLength(), 1e-6);
    assertEquals(0.9144, site.outletRules().fromLineM(), 1e-12);
    assertEquals(3.048, site.outletRules().fromHouseM(), 1e-12);
    assertEquals(true, site.outletRules().pumped());
    // 24 in to the rock, less 2 in of bed and the wall of 0.3 in of a pipe 4 in within, 4.6 in
    // without
    assertEquals(21.7 * 0.0254, site.drain().maxDepthM(), 1e-4);
    assertEquals(0.762, site.soil().frostDepthM().orElseThrow(), 1e-12);
    List<String> assumed = site.assumptions().stream().map(Assumption::about).toList();
    assertEquals(true, assumed.contains("outlet-rules.lid-head"));
    assertEquals(false, assumed.contains("outlet-rules.from-line"));
    assertEquals(false, assumed.contains("outlet-rules.dry-well-from-house"));
  }

  @Test
  void rockTooShallowForAPipeNamesTheSwale() {
    checkProblem(MINIMAL + "soil: { rock-depth: 6 in }\n", "open swale");
  }

  @Test
  void aDrawnDrainToAnOutletThatIsNotThereIsSaid() throws IOException {
    layer("drawn.geojson", feature("{'id':'a','outlet':'CB9'}", "LineString", "[[3,30],[3,3]]"));
    checkProblem(MINIMAL + "pinned: { file: drawn.geojson }\n", "there is no outlet 'CB9'");
  }

  @Test
  void wetPatchesAndSwalesToLevelAreRead() throws IOException {
    layer(
        "wet.geojson",
        feature("{'id':'S1','water-depth':'18 in'}", "Point", "[3,30]"),
        feature("{'id':'S2'}", "Polygon", "[[[4,16],[6,16],[6,17],[4,17],[4,16]]]"));
    layer(
        "swale.geojson",
        feature("{'id':'W1'}", "LineString", "[[3,30],[13,30]]"),
        feature("{'id':'W2','width':'2 m'}", "LineString", "[[3,20],[13,20]]"));
    layer("drawn.geojson", feature("{'id':'a','seep':'S1'}", "LineString", "[[3,32],[3,3]]"));
    Site site =
        read(
            MINIMAL
                + """
                seeps: { file: wet.geojson }
                levelled: { file: swale.geojson }
                pinned: { file: drawn.geojson }
                """);
    assertEquals(18 * 0.0254, site.seeps().get(0).waterDepthM().orElseThrow(), 1e-12);
    assertEquals(true, site.seeps().get(1).waterDepthM().isEmpty());
    assertEquals(10 * 5 * 0.3048, site.levelled().get(0).outline().getArea(), 1e-6);
    assertEquals(10 * 2, site.levelled().get(1).outline().getArea(), 1e-6);
    assertEquals("S1", site.pinned().get(0).seepId());
    assertEquals(
        true, site.assumptions().stream().anyMatch(a -> a.about().equals("levelled width")));
    layer("drawn.geojson", feature("{'id':'a','seep':'S9'}", "LineString", "[[3,30],[3,3]]"));
    checkProblem(
        MINIMAL + "seeps: { file: wet.geojson }\npinned: { file: drawn.geojson }\n",
        "there is no wet patch 'S9'");
  }

  @Test
  void aSepticFieldHasADistanceForEachSideAndAnEasementMayBindTheDrain() throws IOException {
    layer(
        "obstacles.geojson",
        feature("{'kind':'septic','uphill':'25 ft','downhill':'50 ft'}", "Point", "[3,30]"),
        feature(
            "{'kind':'easement','stay':'inside'}",
            "Polygon",
            "[[[0,16],[20,16],[20,17],[0,17],[0,16]]]"));
    Site site = read(MINIMAL + "obstacles: { file: obstacles.geojson }\n");
    Obstacle septic = site.obstacles().get(0);
    assertEquals(7.62, septic.uphillM().orElseThrow(), 1e-12);
    assertEquals(15.24, septic.downhillM().orElseThrow(), 1e-12);
    assertEquals(7.62, septic.clearanceM(), 1e-12);
    assertEquals(true, septic.sided());
    assertEquals(true, site.obstacles().get(1).stayInside());
    assertEquals(Obstacle.Passage.UNDER, site.obstacles().get(1).passage());
  }

  @Test
  void whatIsNotGivenIsAssumedAndSaid() {
    Site site = read(MINIMAL);
    assertEquals("EPSG:26915", site.crs().name());
    for (String about :
        List.of(
            "site.crs",
            "soil.group",
            "storm.depth",
            "storm.duration",
            "drain.min-grade",
            "drain.max-grade",
            "drain.min-cover",
            "drain.max-depth",
            "drain.setback",
            "drain.from-building",
            "drain.trench-width",
            "drain.pipe",
            "drain.vertical-clearance",
            "drain.bore-max-length",
            "drain.grade-line")) {
      List<Assumption> found =
          site.assumptions().stream().filter(a -> a.about().equals(about)).toList();
      assertEquals(1, found.size(), about);
      assertFalse(found.get(0).source().isBlank(), about);
    }
    assertEquals('D', site.soil().group());
    assertEquals(DrainLimits.GradeLine.FEWEST_GRADES, site.drain().gradeLine());
    assertTrue(site.lot().isEmpty());
    assertTrue(site.prices().perUnit().isEmpty());
  }

  @Test
  void theUtmZoneOfTheLotServesWhereTheRasterHasNoProjectedCrs() throws IOException {
    write(
        "degrees.geojson",
        "{'type':'Polygon','coordinates':[[[-93.1,45],[-93.0998,45],[-93.0998,45.0002],[-93.1,45]]]}");
    write("site.yml", MINIMAL + "parcels: { file: degrees.geojson }\n");
    Site site = SiteReader.read(folder.resolve("site.yml"), raster -> Optional.empty());
    assertEquals("EPSG:32615", site.crs().name());
    assertEquals("1", site.lot().orElseThrow().id());
    assertTrue(site.assumptions().toString().contains("parcels.lot"), "the only parcel is meant");
  }

  @Test
  void theUtmZoneOfTheRasterServesWhereThereIsNoLotEither() throws IOException {
    RasterPlanes degrees =
        new RasterPlanes() {
          @Override
          public Optional<WorkingCrs> own(Path raster) {
            return Optional.empty();
          }

          @Override
          public Optional<WorkingCrs> zone(Path raster) {
            return utm15(raster);
          }
        };
    Path dem = Files.createFile(folder.resolve("degrees.tif"));
    Site site = SiteReader.shortForm().elevation(dem).read(degrees);
    assertEquals("EPSG:26915", site.crs().name());
    assertTrue(site.assumptions().toString().contains("the UTM zone of degrees.tif"));
    write(
        "degrees.geojson",
        "{'type':'Polygon','coordinates':[[[-87.1,45],[-87.0998,45],[-87.0998,45.0002],[-87.1,45]]]}");
    Site beside =
        SiteReader.shortForm()
            .elevation(dem)
            .parcels(folder.resolve("degrees.geojson"))
            .read(degrees);
    assertEquals("EPSG:32616", beside.crs().name(), "the lot's zone comes first");
  }

  @Test
  void plainTextValuesStayAsWritten() throws IOException {
    layer("parcels.geojson", LOT_7.replace("'7'", "'007'"), LOT_8);
    assertEquals(
        "007",
        read(MINIMAL + "parcels: { file: parcels.geojson, id: LOT, lot: 007 }")
            .lot()
            .orElseThrow()
            .id());
  }

  @Test
  void aParcelNamedAsRightOfWayIsNobodysGround() throws IOException {
    Site site =
        read(
            MINIMAL + "parcels: { file: parcels.geojson, id: LOT, lot: 7, right-of-way: [\"8\"] }");
    assertEquals(2, site.parcels().size());
    assertTrue(site.neighbours().isEmpty());
    String written = SiteWriter.write(site, folder);
    assertTrue(written.contains("right-of-way"), written);
    assertTrue(read(written).neighbours().isEmpty());
    assertEquals(
        1,
        read(MINIMAL + "parcels: { file: parcels.geojson, id: LOT, lot: 7 }").neighbours().size());
  }

  @Test
  void bareAttributeNumbersTakeTheUnitOfTheirLayer() throws IOException {
    layer("o.geojson", feature("{'kind':'ditch','invert':800}", "Point", "[1,1]"));
    Site site = read(MINIMAL + "outlets: { file: o.geojson, unit: ftUS }");
    assertEquals(800 * 1200.0 / 3937.0, site.outlets().get(0).invertM().orElseThrow(), 1e-9);
  }

  @Test
  void everyProblemIsSaidAtOnce() {
    BadInputException e =
        problems(
            """
            site: { crs: EPSG:999999 }
            elevation: { files: [missing.tif] }
            parcels: { file: parcels.geojson, id: LOT, lot: "77" }
            outlets:
              - { id: A, kind: pond, at: [1, 2] }
            drain: { min-cover: -6 in, min-grad: 1 %, max-depth: deep }
            """);
    String all = e.getMessage();
    assertEquals(7, e.problems().size(), all);
    for (String part :
        List.of(
            "there is no CRS EPSG:999999",
            "missing.tif: there is no such file",
            "there is no lot with the id '77'; did you mean '7'?",
            "'pond' is no kind of outlet",
            "drain.min-cover (line 6): a length cannot be negative",
            "unknown key 'min-grad'; did you mean 'min-grade'?",
            "'deep' is not a length")) {
      assertTrue(all.contains(part), part + " in\n" + all);
    }
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "elevatoin: { files: [dem.tif] } | unknown key 'elevatoin'; did you mean 'elevation'?",
        "elevation: { fles: [dem.tif] } | did you mean 'files'?",
        "soil: { group: D } | no elevation is given",
        "elevation: [1 | not well-formed YAML",
        "just text | a section with keys is expected",
        "elevation: dem.tif | a section with keys is expected",
        "elevation: { files: [{a: b}] } | a list of single values is expected"
      })
  void theFileAsAWhole(String text, String part) {
    checkProblem(text, part);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "drain: { setback: -2 ft } | drain.setback (line 2): a length cannot be negative",
        "drain: { max-depth: 0 } | drain.max-depth (line 2): it must be more than 0",
        "drain: { min-grade: 0 % } | a grade must be more than 0",
        "drain: { min-grade: 1 } | this is a grade of 100 % or more; write per cent",
        "drain: { min-grade: 30 % } | it is more than max-grade",
        "drain: { min-cover: 4 ft } | so no depth is allowed",
        "drain: { trench-width: 3 in } | the trench is narrower than the pipe",
        "drain: { pipe: 5 in } | no pipe of this nominal size",
        "drain: { pipe-inside: 5 in } | not more than the inside diameter",
        "drain: { setback: 2 fathoms } | unknown unit of length 'fathoms'",
        "drain: { setback: 2 ft, setback: 3 ft } | the key is given twice",
        "soil: { group: E } | no hydrologic soil group",
        "soil: { conductivity: 1 } | with its unit",
        "soil: { water-table: 9 m, water-table-depth: 1 m } | the water table is given twice",
        "soil: { water-table-depth: -1 m } | it cannot be negative",
        "soil: { impermeable-depth: 0 m } | it must be more than 0",
        "soil: { relief: { table-depth: 1 m, discharge: 7 mm/d } } | needs soil.conductivity",
        "soil: { conductivity: 1 mm/h, relief: { table-depth: 1 m } } | belong together",
        "soil: { conductivity: 1 mm/h, relief: { table-depth: 1 m, discharge: 0 mm/d } } | more than 0",
        "soil: { grains: { d15: 0.01 mm } } | belong together",
        "soil: { grains: { d15: 0.1 mm, d50: 0.3 mm, d85: 1 mm, uniformity: 4, fines: 60 % } } | contradicts",
        "soil: { fractions: { sand: 40 %, silt: 40 %, clay: 30 % } } | add up to 1.1",
        "soil: { fractions: { sand: 80 %, silt: 40 %, clay: -20 % } } | give shares of 0 to 1",
        "soil: { fractions: { sand: 60 %, clay: 40 % } } | sand, silt and clay belong together",
        "soil: { grains: { d15: 0.2, d50: 0.3, d85: 0.5, uniformity: 3, fines: 10 % } } | no grain of soil",
        "drain: { grade-line: least-diging } | did you mean 'least-digging'?",
        "storm: { depth: 0 mm, duration: 24 h } | storm.depth (line 2): it must be more than 0",
        "storm: { depth: 60 mm, duration: 24 } | with its unit, such as 24 h",
        "storm: { table: none.csv } | there is no such file",
        "storm: { table: intensities.csv, depth: 60 mm } | exclude each other",
        "prices: { trench: 40 per t } | is not priced by a unit of length",
        "prices: { trench: -40 } | is negative",
        "prices: { trnch: 40 } | did you mean 'trench'?",
        // An outlet that water must climb to does not work: common practice, no source.
        "outlets: [{ id: A, kind: catch-basin, at: [1, 2], invert: 9, lid: 8.5 }] | would have to climb",
        "outlets: [{ id: A, at: [1, 2] }] | the outlet has no kind",
        "outlets: [{ kind: ditch, at: [1] }] | write at: [easting, northing]",
        "outlets: [{ kind: ditch, at: [1, 2] }, { kind: ditch, at: [1, 2] }] | at the same point",
        "outlets: [{ id: A, kind: ditch, at: [1, 2] }, { id: A, kind: ditch, at: [1, 3] }] | bear the id 'A'",
        "parcels: { lot: 7 } | give parcels.file",
        "parcels: { file: none.shp } | none.shp: there is no such file",
        "parcels: { file: parcels.geojson, id: LTO, lot: 7 } | there is no field 'LTO'; did you mean 'LOT'?",
        "parcels: { file: parcels.geojson, lot: 8 } | the field 'LOT' holds it: give id: LOT",
        "parcels: { file: parcels.geojson, id: LOT, right-of-way: 88 } | did you mean '8'?",
        "parcels: { file: parcels.geojson, id: LOT, lot: 8, right-of-way: [8] } | lot 8 is also named",
        "buildings: { layer: x } | no file is given",
        "buildings: { file: obstacles.geojson } | a building is a polygon, but this is a LineString",
        "obstacles: { file: walks.geojson } | the obstacle has no kind",
        "elevation: { files: [dem.tif] } | the key is given twice"
      })
  void oneKeyOfManyIsWrong(String text, String part) {
    checkProblem(MINIMAL + text, part);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "Polygon | [[[0,0],[10,10],[10,0],[0,10],[0,0]]] | the lot's outline is not valid: self-intersection at 500005",
        "MultiPolygon | [[[[0,0],[9,0],[9,9],[0,0]]],[[[20,0],[29,0],[29,9],[20,0]]]] | the lot consists of 2 separate parts",
        "LineString | [[0,0],[9,0],[9,9]] | the lot's outline is no polygon"
      })
  void theLotsOutlineIsWrong(String type, String coordinates, String part) throws IOException {
    layer("parcels.geojson", feature("{'LOT':'7'}", type, coordinates), LOT_8);
    checkProblem(MINIMAL + "parcels: { file: parcels.geojson, id: LOT, lot: 7 }", part);
  }

  @Test
  void aLotWithoutGeometryOrGivenTwiceIsSaid() throws IOException {
    String parcels = MINIMAL + "parcels: { file: parcels.geojson, id: LOT, lot: 7 }";
    layer("parcels.geojson", "{'type':'Feature','geometry':null,'properties':{'LOT':'7'}}", LOT_8);
    checkProblem(parcels, "the lot has no outline");
    layer("parcels.geojson", LOT_7, LOT_7);
    checkProblem(parcels, "lot 7 is given by 2 features");
    layer("parcels.geojson", feature("{'LOT':'7'}", "Point", "[1,1]"));
    checkProblem(parcels, "it holds no polygons, so no parcels");
  }

  @Test
  void aLotOfOnePartIsTakenHoweverItIsWritten() throws IOException {
    layer(
        "parcels.geojson",
        feature("{'LOT':'7'}", "MultiPolygon", "[[[[0,0],[20,0],[20,40],[0,40],[0,0]]]]"));
    assertEquals(
        800,
        read(MINIMAL + "parcels: { file: parcels.geojson, id: LOT, lot: 7 }")
            .lot()
            .orElseThrow()
            .outline()
            .getArea(),
        1e-6);
  }

  @Test
  void aNeighboursFaultyOutlineIsMendedAndSaid() throws IOException {
    layer(
        "parcels.geojson",
        LOT_7,
        feature("{'LOT':'8'}", "Polygon", "[[[20,0],[40,0],[20,40],[40,40],[20,0]]]"));
    Site site = read(MINIMAL + "parcels: { file: parcels.geojson, id: LOT, lot: 7 }");
    assertEquals(3, site.parcels().size());
    assertTrue(
        site.warnings().get(0).contains("self-intersection at 500030"), site.warnings().get(0));
    assertTrue(site.parcels().stream().allMatch(p -> p.outline().isValid()));
  }

  @Test
  void theShortFormGivesTheSameSiteAsItsSiteFile() throws IOException {
    Site quick =
        SiteReader.shortForm()
            .elevation(folder.resolve("dem.tif"))
            .parcels(folder.resolve("parcels.geojson"))
            .idField("LOT")
            .lot("7")
            .buildings(folder.resolve("buildings.geojson"))
            .outlet("500012.4,4999981.0,241.3 m")
            .outlet("500013,4999982")
            .read(SiteReaderTest::utm15);
    assertEquals(2, quick.outlets().size());
    assertEquals(OptionalDouble.of(241.3), quick.outlets().get(0).invertM());
    assertTrue(quick.outlets().get(1).invertM().isEmpty());
    write("site.yml", SiteWriter.write(quick, folder));
    Site again = SiteReader.read(folder.resolve("site.yml"), SiteReaderTest::utm15);
    checkSame(quick, again);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "1;2 | is not understood",
        "1 | is not understood",
        "a,b | is not understood",
        "1,2,deep | is not understood"
      })
  void theShortFormsOutletIsWrong(String text, String part) {
    BadInputException e =
        assertThrows(
            BadInputException.class,
            () ->
                SiteReader.shortForm()
                    .elevation(folder.resolve("dem.tif"))
                    .outlet(text)
                    .read(SiteReaderTest::utm15));
    assertTrue(e.getMessage().contains(part), e.getMessage());
  }

  @Test
  void aSiteFileThatIsMissingEmptyOrNoTextIsSaid() throws IOException {
    BadInputException e =
        assertThrows(
            BadInputException.class,
            () -> SiteReader.read(folder.resolve("no.yml"), SiteReaderTest::utm15));
    assertTrue(e.getMessage().contains("there is no such file"), e.getMessage());
    checkProblem("", "the site file is empty");
    Files.write(folder.resolve("site.yml"), new byte[] {'a', ':', ' ', (byte) 0xff, (byte) 0xfe});
    e =
        assertThrows(
            BadInputException.class,
            () -> SiteReader.read(folder.resolve("site.yml"), SiteReaderTest::utm15));
    assertTrue(e.getMessage().contains("not text in UTF-8"), e.getMessage());
  }

  private static void checkSame(Site expected, Site actual) {
    assertEquals(expected.assumptions(), actual.assumptions());
    assertEquals(expected.warnings(), actual.warnings());
    assertEquals(expected.inputs(), actual.inputs());
    assertEquals(expected.outlets(), actual.outlets());
    assertEquals(expected.drain(), actual.drain());
    assertEquals(expected, actual);
  }

  private static Optional<WorkingCrs> utm15(Path raster) {
    return Optional.of(CrsLookup.of("EPSG:26915"));
  }

  private Site read(String text) {
    write("site.yml", text);
    return SiteReader.read(folder.resolve("site.yml"), SiteReaderTest::utm15);
  }

  private BadInputException problems(String text) {
    return assertThrows(BadInputException.class, () -> read(text));
  }

  private void checkProblem(String text, String part) {
    BadInputException e = problems(text);
    assertTrue(e.getMessage().contains(part), e.getMessage());
    for (Problem problem : e.problems()) {
      assertEquals(1, problem.line().lines().count(), problem.line());
    }
  }

  private void write(String name, String text) {
    try {
      Files.write(
          folder.resolve(name),
          text.replace(name.endsWith("json") ? '\'' : '\0', '"').getBytes(StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  /** A GeoJSON file in EPSG:26915, its coordinates counted from 500000, 5000000. */
  private void layer(String name, String... features) throws IOException {
    StringBuilder moved = new StringBuilder();
    java.util.regex.Matcher pairs =
        java.util.regex.Pattern.compile("\\[(\\d+),(\\d+)\\]").matcher(String.join(",", features));
    while (pairs.find()) {
      pairs.appendReplacement(
          moved,
          "["
              + (500000 + Integer.parseInt(pairs.group(1)))
              + ","
              + (5000000 + Integer.parseInt(pairs.group(2)))
              + "]");
    }
    pairs.appendTail(moved);
    write(
        name,
        "{'type':'FeatureCollection','crs':{'type':'name','properties':{'name':'EPSG:26915'}},"
            + "'features':["
            + moved
            + "]}");
  }

  private static String feature(String properties, String type, String coordinates) {
    return "{'type':'Feature','properties':"
        + properties
        + ",'geometry':{'type':'"
        + type
        + "','coordinates':"
        + coordinates
        + "}}";
  }
}
