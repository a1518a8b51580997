package org.yardfall.elevation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.GeometryFactory;
import org.yardfall.site.BadInputException;
import org.yardfall.site.CrsLookup;
import org.yardfall.site.ElevationInput;
import org.yardfall.site.ShotInput;
import org.yardfall.site.WorkingCrs;

/**
 * Point clouds: extracts of public files (NOTICE beside them; what they hold is read by
 * make-extracts.py), and files written here by the ASPRS LAS Specification 1.2, table of the public
 * header block and point data record format 0.
 */
class PointCloudTest {

  private static final WorkingCrs UTM = CrsLookup.of("EPSG:26915");
  private static final int HEADER = 227;
  private static final int POINT = 20;

  @TempDir Path folder;

  private static Path survey(String name) throws Exception {
    return Path.of(PointCloudTest.class.getResource("survey/" + name).toURI());
  }

  private static Shots read(Path file, WorkingCrs crs, OptionalDouble verticalUnitM) {
    return read(file, crs, verticalUnitM, new ExpectedPlace(null, ""));
  }

  private static Shots read(
      Path file, WorkingCrs crs, OptionalDouble verticalUnitM, ExpectedPlace place) {
    return ShotFile.read(
        new ElevationInput(
            List.of(),
            file,
            null,
            verticalUnitM,
            "",
            OptionalDouble.empty(),
            null,
            ShotInput.NONE,
            ""),
        crs,
        place);
  }

  @Test
  void groundPointsComeInTheUnitsThatTheFileNames() throws Exception {
    Path file = survey("ditch.las");
    WorkingCrs own = ElevationSource.PLANES.ofShots(file).orElseThrow();
    assertEquals("EPSG:2903", own.name());
    Shots shots = read(file, own, OptionalDouble.empty());
    assertEquals(174, shots.shots().size());
    Shot first = shots.shots().get(0);
    assertEquals(1_639_681.18 * 1200 / 3937, first.x(), 1e-6);
    assertEquals(1_454_601.91 * 1200 / 3937, first.y(), 1e-6);
    assertEquals(7082.67 * 1200 / 3937, first.z(), 1e-6);
    assertEquals(7081.808793 * 1200 / 3937, meanZ(shots), 1e-6);
    assertEquals(List.of(), shots.warnings());
  }

  @Test
  void aPointCloudIsBroughtToAnotherWorkingCrs() throws Exception {
    // EPSG:26913 is UTM zone 13 on NAD83; both are NAD83 realisations in the register's terms.
    Path file = survey("ditch.las");
    Shots own = read(file, CrsLookup.of("EPSG:2903"), OptionalDouble.empty());
    Shots utm = read(file, CrsLookup.of("EPSG:26913"), OptionalDouble.empty());
    Shot a = own.shots().get(0);
    Shot b = own.shots().get(173);
    Shot a2 = utm.shots().get(0);
    Shot b2 = utm.shots().get(173);
    assertEquals(a.z(), a2.z(), 1e-9);
    assertTrue(a2.x() > 300_000 && a2.x() < 700_000 && a2.y() > 3_500_000, a2.toString());
    // Both projections keep lengths to a few parts in ten thousand.
    double apart = Math.hypot(a.x() - b.x(), a.y() - b.y());
    assertEquals(apart, Math.hypot(a2.x() - b2.x(), a2.y() - b2.y()), 1e-3 * apart);
    assertTrue(
        (utm.assumptions().toString() + utm.warnings()).contains("EPSG:2903"),
        utm.assumptions().toString());
  }

  @Test
  void aCompressedFileOfVersionFourHoldsWhatItsPlainSiblingHolds() throws Exception {
    // Numbers of points, of ground points and their elevations: of the uncompressed sibling
    // 1.2-with-color-clipped.las in the same repository.
    Shots shots = read(survey("hills.laz"), CrsLookup.of("EPSG:2991"), OptionalDouble.empty());
    double[] z = shots.shots().stream().mapToDouble(Shot::z).toArray();
    assertEquals(276, z.length);
    double foot = 1200.0 / 3937; // named by its vertical CRS, EPSG:6360
    assertEquals(423.2247826, meanZ(shots) / foot, 1e-6);
    assertEquals(407.22, Arrays.stream(z).min().orElseThrow() / foot, 1e-6);
    assertEquals(475.43, Arrays.stream(z).max().orElseThrow() / foot, 1e-6);
    assertTrue(shots.description().get(0).contains("1065 points, 276 of them ground"));
  }

  @Test
  void aStatedUnitOfElevationsIsTakenAndTheFilesOwnIsSaid() throws Exception {
    Shots shots = read(survey("ditch.las"), CrsLookup.of("EPSG:2903"), OptionalDouble.of(1));
    assertEquals(7082.67, shots.shots().get(0).z(), 1e-6);
    assertTrue(shots.warnings().get(0).contains("US survey foot"), shots.warnings().toString());
  }

  @Test
  void aFileWithoutCrsLiesInTheWorkingOneAndSaysSo() throws IOException {
    Shots shots = read(las(plane(100, 2), 100), UTM, OptionalDouble.empty());
    assertEquals(100, shots.shots().size());
    assertTrue(shots.assumptions().toString().contains("taken to be the working CRS"));
    assertEquals(UsualAccuracy.AIRBORNE, shots.accuracy());
  }

  @Test
  void flagsBesideTheClassAreNoClassAndWithheldPointsAreLeftOut() throws IOException {
    byte[] points = plane(30, 2 | 0x20); // synthetic
    points[15] = (byte) (2 | 0x80); // withheld
    Shots shots = read(las(points, 30), UTM, OptionalDouble.empty());
    assertEquals(29, shots.shots().size());
    assertEquals("point 2", shots.shots().get(0).id());
  }

  @Test
  void aVeryLargeFileIsThinnedEvenlyAndSaysHow() throws IOException {
    int side = 800;
    Path file = las(plane(side * side, 2), side * side);
    Envelope lot = new Envelope(500_010, 500_020, 4_980_010, 4_980_020);
    ExpectedPlace near = new ExpectedPlace(new GeometryFactory().toGeometry(lot), "the lot");
    Shots shots = read(file, UTM, OptionalDouble.empty(), near);
    // Far squares alone are so many; the finer ones near the lot come on top.
    int kept = shots.shots().size();
    assertTrue(kept < 1.1 * PointThinner.MOST_POINTS, () -> kept + " kept");
    assertTrue(shots.assumptions().toString().contains("of 640000 ground points kept"));
    // Near the lot every point is kept, for its squares are finer than the points' spacing.
    assertEquals(
        places(side).stream().filter(lot::contains).count(),
        shots.shots().stream().filter(s -> lot.contains(s.x(), s.y())).count());
    // What is kept was measured: z = (x + y)/100 on the plane to the file's millimetre.
    assertTrue(
        shots.shots().stream()
            .allMatch(s -> Math.abs(s.z() - (s.x() - 500_000 + s.y() - 4_980_000) / 100) < 2e-3));
    // And it lies evenly: both halves of the far field hold about as many.
    long south = shots.shots().stream().filter(s -> s.x() > 500_300 && s.y() < 4_980_200).count();
    long north = shots.shots().stream().filter(s -> s.x() > 500_300 && s.y() > 4_980_200).count();
    assertTrue(Math.min(south, north) > 0.8 * Math.max(south, north), south + " " + north);
  }

  @Test
  void whatIsNoGroundOrIsDamagedIsRefusedInOneLine() throws Exception {
    checkRefused(las(plane(20, 1), 20), "none of its points is classified as ground", "1 (20)");
    checkRefused(las(new byte[0], 0), "holds no points");
    checkRefused(las(plane(20, 2), 40), "cut off");
    byte[] whole = Files.readAllBytes(survey("hills.laz"));
    checkRefused(write(Arrays.copyOf(whole, whole.length / 2)), "cut off");
    checkRefused(write(Arrays.copyOf(whole, 100)), "cut off");
    byte[] records = Files.readAllBytes(las(plane(20, 2), 20));
    ByteBuffer.wrap(records).order(ByteOrder.LITTLE_ENDIAN).putInt(100, 1_069_128_089);
    checkRefused(write(records), "header is damaged");
    byte[] noise = new byte[100_000];
    new Random(3).nextBytes(noise);
    System.arraycopy("LASF".getBytes(StandardCharsets.US_ASCII), 0, noise, 0, 4);
    checkRefused(write(noise), "header is damaged");
  }

  @Test
  void aPointCloudProvesNoPipe() throws Exception {
    Path file = survey("ditch.las");
    BadInputException refusal =
        assertThrows(
            BadInputException.class, () -> ShotFile.read(file, null, ShotUnits.METRES, null));
    assertTrue(refusal.getMessage().contains("point cloud"), refusal.getMessage());
  }

  private void checkRefused(Path file, String... words) {
    BadInputException refusal =
        assertThrows(BadInputException.class, () -> read(file, UTM, OptionalDouble.empty()));
    assertEquals(1, refusal.problems().size());
    for (String word : words) {
      assertTrue(refusal.getMessage().contains(word), refusal.getMessage());
    }
  }

  private static double meanZ(Shots shots) {
    return shots.shots().stream().mapToDouble(Shot::z).average().orElseThrow();
  }

  /** The places of a plane of so many points a side, half a metre apart. */
  private static List<Coordinate> places(int side) {
    List<Coordinate> places = new ArrayList<>();
    for (int row = 0; row < side; row++) {
      for (int col = 0; col < side; col++) {
        places.add(new Coordinate(500_000 + 0.5 * col, 4_980_000 + 0.5 * row));
      }
    }
    return places;
  }

  private Path file() {
    return folder.resolve("cloud.las");
  }

  private Path write(byte[] bytes) throws IOException {
    return Files.write(file(), bytes);
  }

  /** Points on the plane z = (x + y)/100 in format 0, half a metre apart, square. */
  private static byte[] plane(int count, int kind) {
    int side = (int) Math.ceil(Math.sqrt(count));
    ByteBuffer points = ByteBuffer.allocate(POINT * count).order(ByteOrder.LITTLE_ENDIAN);
    for (int i = 0; i < count; i++) {
      int x = 500 * (i % side);
      int y = 500 * (i / side);
      points.putInt(x).putInt(y).putInt((x + y) / 100);
      points.putShort((short) 0).put((byte) 0x09).put((byte) kind);
      points.put((byte) 0).put((byte) 0).putShort((short) 0);
    }
    return points.array();
  }

  /** A LAS 1.2 file in millimetres from (500000, 4980000, 0) that says how many points it holds. */
  private Path las(byte[] points, int count) throws IOException {
    int side = (int) Math.ceil(Math.sqrt(Math.max(1, count)));
    ByteBuffer head = ByteBuffer.allocate(HEADER).order(ByteOrder.LITTLE_ENDIAN);
    head.put("LASF".getBytes(StandardCharsets.US_ASCII));
    head.put(24, (byte) 1).put(25, (byte) 2);
    head.putShort(94, (short) HEADER).putInt(96, HEADER).putInt(100, 0);
    head.put(104, (byte) 0).putShort(105, (short) POINT).putInt(107, count).putInt(111, count);
    for (int axis = 0; axis < 3; axis++) {
      head.putDouble(131 + 8 * axis, 0.001);
    }
    head.putDouble(155, 500_000).putDouble(163, 4_980_000).putDouble(171, 0);
    head.putDouble(179, 500_000 + 0.5 * side).putDouble(187, 500_000);
    head.putDouble(195, 4_980_000 + 0.5 * side).putDouble(203, 4_980_000);
    head.putDouble(211, side / 100.0).putDouble(219, 0);
    byte[] all = Arrays.copyOf(head.array(), HEADER + points.length);
    System.arraycopy(points, 0, all, HEADER, points.length);
    return write(all);
  }
}
