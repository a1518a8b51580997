package org.yardfall.elevation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.function.DoubleBinaryOperator;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.algorithm.ConvexHull;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.Triangle;
import org.yardfall.site.BadInputException;
import org.yardfall.site.ShotInput;
import org.yardfall.site.ShotRole;

/** Surfaces from shots against what is known of them; all ground is invented. */
class ShotSurfaceTest {

  private static final GeometryFactory FACTORY = new GeometryFactory();
  private static final GridFrame FRAME = new GridFrame(40, 40, 5000, 9040, 1);
  private static final ShotInput LINES = input(Map.of("K", ShotRole.BREAKLINE));

  private static ShotInput input(Map<String, ShotRole> codes) {
    return new ShotInput(
        OptionalDouble.empty(),
        codes,
        null,
        OptionalDouble.empty(),
        OptionalDouble.of(1000),
        false);
  }

  private static Shots shots(List<Shot> shots) {
    return new Shots(
        "shots.csv",
        shots,
        List.of(),
        Optional.empty(),
        List.of(),
        UsualAccuracy.ROD,
        List.of(),
        List.of());
  }

  /** Shots at random places of the frame, on ground given by metres from its south-west corner. */
  private static List<Shot> random(int seed, int count, DoubleBinaryOperator ground) {
    Random random = new Random(seed);
    List<Shot> shots = new ArrayList<>();
    for (int i = 1; i <= count; i++) {
      double x = 40 * random.nextDouble();
      double y = 40 * random.nextDouble();
      shots.add(shot(i, x, y, ground.applyAsDouble(x, y), ""));
    }
    return shots;
  }

  private static Shot shot(int id, double x, double y, double z, String code) {
    return new Shot(String.valueOf(id), 5000 + x, 9000 + y, z, code);
  }

  private static Geometry hull(List<Shot> shots) {
    return new ConvexHull(shots.stream().map(Shot::coordinate).toArray(Coordinate[]::new), FACTORY)
        .getConvexHull();
  }

  private static ShotSurface surface(List<Shot> shots, ShotInput input) {
    return ShotSurface.of(shots(shots), input);
  }

  @Property(tries = 20, seed = "20261125")
  void aPlaneComesBackAndNothingBeyondTheHull(
      @ForAll @IntRange(min = 0, max = 9999) int seed, @ForAll @IntRange(min = 4, max = 60) int n) {
    DoubleBinaryOperator plane = (x, y) -> 210 + 0.031 * x - 0.017 * y;
    List<Shot> shots = random(seed, n, plane);
    ElevationGrid grid = surface(shots, LINES).tin().grid(FRAME);
    Geometry hull = hull(shots);
    for (int row = 0; row < 40; row++) {
      for (int col = 0; col < 40; col++) {
        Coordinate centre = new Coordinate(FRAME.x(col), FRAME.y(row));
        float z = grid.at(col, row);
        double outside = hull.distance(FACTORY.createPoint(centre));
        if (outside > 1e-6) {
          assertTrue(Float.isNaN(z));
        } else if (hull.getBoundary().distance(FACTORY.createPoint(centre)) > 1e-6) {
          // A float at 210 m is exact to 8 micrometres.
          assertEquals(plane.applyAsDouble(centre.x - 5000, centre.y - 9000), z, 2e-5);
        }
      }
    }
  }

  /**
   * On the paraboloid z = a(x² + y²) the flat triangle with circumcentre c and circumradius R
   * stands a(R² − |p − c|²) above the ground at p: the lifting by which Delaunay triangulations are
   * convex hulls (Edelsbrunner, Geometry and Topology for Mesh Generation, 2001, section 1.1; the
   * formula follows by subtraction). So the surface is nowhere below, and above by aR² at most.
   */
  @Property(tries = 20, seed = "20261125")
  void aParaboloidComesBackWithinItsCircumcircles(
      @ForAll @IntRange(min = 0, max = 9999) int seed, @ForAll @IntRange(min = 5, max = 40) int n) {
    double a = 0.004;
    List<Shot> shots = random(seed, n, (x, y) -> a * (x * x + y * y));
    Tin tin = surface(shots, LINES).tin();
    ElevationGrid grid = tin.grid(FRAME);
    for (int t = 0; t < tin.corners().length; t += 3) {
      Coordinate[] corner = new Coordinate[3];
      for (int i = 0; i < 3; i++) {
        int v = tin.corners()[t + i];
        corner[i] = new Coordinate(tin.x()[v] - 5000, tin.y()[v] - 9000);
      }
      Coordinate centre = Triangle.circumcentreDD(corner[0], corner[1], corner[2]);
      double radius = centre.distance(corner[0]);
      for (Shot other : shots) {
        double d = centre.distance(new Coordinate(other.x() - 5000, other.y() - 9000));
        assertTrue(d > radius - 1e-4 * (1 + radius), "a shot within a circumcircle");
      }
      Geometry inner =
          FACTORY
              .createPolygon(new Coordinate[] {corner[0], corner[1], corner[2], corner[0]})
              .buffer(-1e-6);
      for (int cell = 0; cell < FRAME.size(); cell++) {
        Coordinate p = new Coordinate(FRAME.x(cell % 40) - 5000, FRAME.y(cell / 40) - 9000);
        if (inner.covers(FACTORY.createPoint(p))) {
          double above = radius * radius - p.distance(centre) * p.distance(centre);
          assertEquals(a * (p.x * p.x + p.y * p.y + above), grid.z()[cell], 1e-4, "at " + p);
        }
      }
    }
  }

  /** A kerb 0.15 m high, its top and its foot 0.1 m apart on plan; shots on them every 10 m. */
  private static List<Shot> kerb(String top, String foot) {
    List<Shot> shots = new ArrayList<>();
    int id = 1;
    for (int i = 0; i <= 4; i++) {
      shots.add(shot(id++, 10 * i, 20.05, 100.15, top));
      shots.add(shot(id++, 10 * i, 19.95, 100, foot));
    }
    // Away from the kerb the shots stand closer than on it, so that plain triangles cross it.
    for (int i = 0; i <= 20; i++) {
      shots.add(shot(id++, 2 * i, 20.8, 100.15, ""));
      shots.add(shot(id++, 2 * i + 1, 19.2, 100, ""));
      shots.add(shot(id++, 2 * i, 40, 100.15, ""));
      shots.add(shot(id++, 2 * i, 0, 100, ""));
    }
    return shots;
  }

  private static double worstAtKerb(List<Shot> shots) {
    ElevationGrid grid = surface(shots, LINES).tin().grid(FRAME);
    double worst = 0;
    for (int col = 0; col < 40; col++) {
      worst = Math.max(worst, Math.abs(grid.at(col, 19) - 100.15)); // y = 20.5
      worst = Math.max(worst, Math.abs(grid.at(col, 20) - 100)); // y = 19.5
    }
    return worst;
  }

  @Test
  void breaklinesHoldAKerb() {
    assertEquals(0, worstAtKerb(kerb("K1", "K2")), 1e-4);
    assertTrue(worstAtKerb(kerb("", "")) > 0.02, "the case must need its breaklines");
  }

  @Test
  void aBreaklineEndsAndBeginsByWord() {
    FieldCodes codes = new FieldCodes(Map.of("ep", ShotRole.BREAKLINE, "FL", ShotRole.BREAKLINE));
    List<Shot> shots =
        List.of(
            shot(1, 0, 0, 1, "EP start"),
            shot(2, 1, 0, 1, "FL1"),
            shot(3, 2, 0, 1, "EP"),
            shot(4, 3, 0, 1, "FL2"),
            shot(5, 4, 0, 1, "EP end"),
            shot(6, 5, 0, 1, "FL 1 close"),
            shot(7, 6, 0, 1, "EP"),
            shot(8, 7, 0, 1, "FL2"),
            shot(9, 8, 0, 1, "FL 1"));
    assertEquals(
        "[[1, 3, 5], [2], [4, 8], [6, 6], [7], [9]]",
        codes.lines(shots, ShotRole.BREAKLINE, 1e9, new ArrayList<>()).stream()
            .map(line -> line.stream().map(Shot::id).toList())
            .toList()
            .toString());
  }

  @Test
  void crossingBreaklinesAreNodedAndSaid() {
    List<Shot> shots = random(3, 40, (x, y) -> 50);
    LineString one =
        FACTORY.createLineString(
            new Coordinate[] {new Coordinate(5005, 9005, 50), new Coordinate(5035, 9035, 50)});
    LineString other =
        FACTORY.createLineString(
            new Coordinate[] {new Coordinate(5005, 9035, 50.4), new Coordinate(5035, 9005, 50.4)});
    ShotSurface surface =
        ShotSurface.of(
            new Shots(
                "s",
                shots,
                List.of(one, other),
                Optional.empty(),
                List.of(),
                UsualAccuracy.ROD,
                List.of(),
                List.of()),
            LINES);
    assertTrue(
        surface.warnings().stream()
            .anyMatch(w -> w.contains("cross at 1 places") && w.contains("0.40 m")),
        surface.warnings().toString());
    assertEquals(50.2, surface.tin().grid(FRAME).bilinear(5020, 9020), 0.02);
  }

  @Test
  void tinyEdgesAndNearDoublesOfABreaklineAreKeptWithin() {
    // A closed line of four corners with a near double at each, and one that crosses it.
    List<Shot> shots = new ArrayList<>(random(12, 60, (x, y) -> 50));
    double[][] corners = {{10, 10}, {30, 10}, {30, 30}, {10, 30}};
    int id = 100;
    for (double[] corner : corners) {
      shots.add(shot(id++, corner[0], corner[1], 51, "TOP"));
      shots.add(shot(id++, corner[0] + 0.003, corner[1], 51, "TOP"));
    }
    shots.add(shot(id++, 10, 10.002, 51, "TOP close"));
    shots.add(shot(id++, 5, 20, 51, "CUT"));
    shots.add(shot(id++, 35, 20, 51, "CUT"));
    ShotSurface surface =
        surface(
            shots,
            new ShotInput(
                OptionalDouble.empty(),
                Map.of("TOP", ShotRole.BREAKLINE, "CUT", ShotRole.BREAKLINE),
                null,
                OptionalDouble.of(1),
                OptionalDouble.of(1000),
                false));
    ElevationGrid grid = surface.tin().grid(FRAME);
    // Along the crossing line the ground stays at 51, though the shots round it lie at 50.
    ElevationGrid along = surface.tin().grid(new GridFrame(28, 1, 5006, 9020.5, 1));
    for (int col = 0; col < 28; col++) {
      assertEquals(51, along.at(col, 0), 1e-5, "at " + col);
    }
    assertTrue(
        surface.warnings().stream().anyMatch(w -> w.contains("cross at 2 places")),
        surface.warnings().toString());
    for (float z : grid.z()) {
      assertTrue(Float.isNaN(z) || (z > 49.99 && z < 51.01), "a leak to " + z);
    }
  }

  @Test
  void shotsThatAllButCoincideAreOne() {
    List<Shot> shots = new ArrayList<>(random(4, 30, (x, y) -> 50));
    shots.add(shot(31, 20, 20, 50, "K"));
    shots.add(shot(32, 20.004, 20, 50.02, "K"));
    shots.add(shot(33, 30, 20, 50, "K"));
    shots.add(shot(34, 30, 20.003, 50.5, "K"));
    ShotSurface surface = surface(shots, LINES);
    assertEquals(32, surface.ground().size());
    assertTrue(
        surface.warnings().stream().anyMatch(w -> w.contains("33 and 34 (0.50 m)")),
        surface.warnings().toString());
  }

  @Test
  void aBlunderIsNamedAndLeftOutAndItsNeighboursStay() {
    List<Shot> shots = new ArrayList<>(random(5, 200, (x, y) -> 210 + 0.05 * x));
    shots.set(77, shot(78, 20, 20, 214.0, ""));
    ShotSurface surface = surface(shots, LINES);
    assertEquals(199, surface.ground().size());
    assertTrue(
        surface.warnings().stream()
            .anyMatch(w -> w.matches(".*left out: 78 \\((2.9|3.0)\\d m above\\)")),
        surface.warnings().toString());
  }

  @Test
  void openGroundAtTheRimIsNotBridged() {
    List<Shot> shots = new ArrayList<>();
    int id = 1;
    for (int i = 0; i < 5; i++) {
      for (int j = 0; j < 5; j++) {
        shots.add(shot(id++, 2 * i, 2 * j, 7, ""));
        shots.add(shot(id++, 30 + 2 * i, 2 * j, 7, ""));
      }
    }
    ElevationGrid grid = surface(shots, ShotInput.NONE).tin().grid(FRAME);
    assertTrue(Float.isNaN(grid.at(20, 35)));
    assertEquals(7, grid.at(4, 35));
    assertEquals(7, grid.at(34, 35));
  }

  @Test
  void residualsAreTheShotsAboveTheGrid() {
    List<Shot> shots = random(6, 100, (x, y) -> 50 + 0.1 * x);
    ElevationGrid lower =
        surface(random(7, 400, (x, y) -> 49.97 + 0.1 * x), LINES)
            .tin()
            .grid(new GridFrame(44, 44, 4998, 9042, 1));
    List<ShotResidual> residuals = surface(shots, LINES).residuals(lower);
    assertTrue(residuals.size() > 80);
    residuals.forEach(residual -> assertEquals(0.03, residual.offM(), 1e-4));
  }

  @Test
  void tooFewShotsAreRefused() {
    checkRefused(random(1, 1, (x, y) -> 1), "a single shot");
    checkRefused(random(1, 2, (x, y) -> 1), "2 shots");
    checkRefused(
        List.of(shot(1, 0, 0, 1, ""), shot(2, 1, 1, 1, ""), shot(3, 2, 2, 1, "")), "one line");
    checkRefused(
        List.of(shot(1, 0, 0, 1, ""), shot(2, 1, 1, 1, ""), shot(3, 0, 0, 1, "")), "one line");
  }

  private static void checkRefused(List<Shot> shots, String words) {
    BadInputException refusal =
        assertThrows(BadInputException.class, () -> surface(shots, ShotInput.NONE));
    assertTrue(refusal.getMessage().contains(words), refusal.getMessage());
  }

  @Test
  void theOrderOfShotsDoesNotMatter() {
    List<Shot> shots = new ArrayList<>(random(8, 80, (x, y) -> Math.sin(x) + Math.cos(y)));
    float[] first = surface(shots, LINES).tin().grid(FRAME).z();
    java.util.Collections.reverse(shots);
    org.junit.jupiter.api.Assertions.assertArrayEquals(
        first, surface(shots, LINES).tin().grid(FRAME).z(), 1e-5f);
  }
}
