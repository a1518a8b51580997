package org.yardfall.site;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.yardfall.site.SiteFolder.LOT_7;
import static org.yardfall.site.SiteFolder.LOT_8;
import static org.yardfall.site.SiteFolder.MINIMAL;
import static org.yardfall.site.SiteFolder.feature;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What is wrong with a site file or the files that it names is said, each in a line. */
class SiteProblemsTest {

  @TempDir Path folder;
  private SiteFolder yard;

  @BeforeEach
  void files() {
    yard = SiteFolder.in(folder);
  }

  @Test
  void rockTooShallowForAPipeNamesTheSwale() {
    yard.checkProblem(MINIMAL + "soil: { rock-depth: 6 in }\n", "open swale");
  }

  @Test
  void anAreaOfRockNeedsItsDepthAndNothingElseHasOne() {
    String obstacles = MINIMAL + "obstacles: { file: ledge.geojson }\n";
    String outline = "[[[3,20],[9,20],[9,24],[3,24],[3,20]]]";
    yard.layer("ledge.geojson", feature("{'kind':'rock'}", "Polygon", outline));
    yard.checkProblem(obstacles, "how deep the rock lies is missing");
    yard.layer("ledge.geojson", feature("{'kind':'rock','rock-depth':'1 ft'}", "Point", "[3,30]"));
    yard.checkProblem(obstacles, "rock is an area, but this is a Point");
    yard.layer("ledge.geojson", feature("{'kind':'tree','rock-depth':'1 ft'}", "Point", "[3,30]"));
    yard.checkProblem(obstacles, "only of rock is a depth known");
    yard.layer("ledge.geojson", feature("{'kind':'rock','rock-depth':'1 ft'}", "Polygon", outline));
    assertEquals(0.3048, yard.read(obstacles).obstacles().get(0).rockDepthM().orElseThrow(), 1e-9);
  }

  @Test
  void aDrawnDrainToAnOutletThatIsNotThereIsSaid() {
    yard.layer(
        "drawn.geojson", feature("{'id':'a','outlet':'CB9'}", "LineString", "[[3,30],[3,3]]"));
    yard.checkProblem(MINIMAL + "pinned: { file: drawn.geojson }\n", "there is no outlet 'CB9'");
  }

  @Test
  void everyProblemIsSaidAtOnce() {
    BadInputException e =
        yard.problems(
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
    yard.checkProblem(text, part);
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
        "soil: { curve-numbers: { lawn: 29 } } | soil.curve-numbers.lawn (line 2): a curve number lies between 30 and 100",
        "soil: { curve-numbers: { roof: 101 } } | a curve number lies between 30 and 100",
        "soil: { curve-numbers: { lwn: 80 } } | did you mean 'lawn'?",
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
    yard.checkProblem(MINIMAL + text, part);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "Polygon | [[[0,0],[10,10],[10,0],[0,10],[0,0]]] | the lot's outline is not valid: self-intersection at 500005",
        "MultiPolygon | [[[[0,0],[9,0],[9,9],[0,0]]],[[[20,0],[29,0],[29,9],[20,0]]]] | the lot consists of 2 separate parts",
        "LineString | [[0,0],[9,0],[9,9]] | the lot's outline is no polygon"
      })
  void theLotsOutlineIsWrong(String type, String coordinates, String part) {
    yard.layer("parcels.geojson", feature("{'LOT':'7'}", type, coordinates), LOT_8);
    yard.checkProblem(MINIMAL + "parcels: { file: parcels.geojson, id: LOT, lot: 7 }", part);
  }

  @Test
  void aLotWithoutGeometryOrGivenTwiceIsSaid() {
    String parcels = MINIMAL + "parcels: { file: parcels.geojson, id: LOT, lot: 7 }";
    yard.layer(
        "parcels.geojson", "{'type':'Feature','geometry':null,'properties':{'LOT':'7'}}", LOT_8);
    yard.checkProblem(parcels, "the lot has no outline");
    yard.layer("parcels.geojson", LOT_7, LOT_7);
    yard.checkProblem(parcels, "lot 7 is given by 2 features");
    yard.layer("parcels.geojson", feature("{'LOT':'7'}", "Point", "[1,1]"));
    yard.checkProblem(parcels, "it holds no polygons, so no parcels");
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
                    .read(SiteFolder::utm15));
    assertTrue(e.getMessage().contains(part), e.getMessage());
  }

  @Test
  void aSiteFileThatIsMissingEmptyOrNoTextIsSaid() throws IOException {
    BadInputException e =
        assertThrows(
            BadInputException.class,
            () -> SiteReader.read(folder.resolve("no.yml"), SiteFolder::utm15));
    assertTrue(e.getMessage().contains("there is no such file"), e.getMessage());
    yard.checkProblem("", "the site file is empty");
    Files.write(folder.resolve("site.yml"), new byte[] {'a', ':', ' ', (byte) 0xff, (byte) 0xfe});
    e =
        assertThrows(
            BadInputException.class,
            () -> SiteReader.read(folder.resolve("site.yml"), SiteFolder::utm15));
    assertTrue(e.getMessage().contains("not text in UTF-8"), e.getMessage());
  }
}
