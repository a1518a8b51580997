package org.yardfall.fieldwork;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.Collectors;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;
import org.yardfall.elevation.Shot;
import org.yardfall.route.Route;
import org.yardfall.site.BadInputException;

/** Plan, stake, shoot, prove: verdicts on invented pipe whose faults are planted. */
class AsBuiltProofTest {

  private static final ProofLimits LIMITS = ProofLimits.of(FieldFixtures.LIMITS);
  private static final Route BENT = FieldFixtures.bentRoute();
  private static final Route STRAIGHT =
      FieldFixtures.route(
          FieldFixtures.line(new double[] {0, 0, 30, 0}, 100, new double[] {0.01}, 0.6));

  /** A pipe laid on its stakes passes, whatever the noise of a good laser. */
  @Property(tries = 60, seed = "20261125")
  void aPipeLaidOnItsStakesPasses(
      @ForAll @IntRange(max = 100000) int seed,
      @ForAll @DoubleRange(min = 0.5, max = 3.0) double interval,
      @ForAll ProofLimits.Held held) {
    Random noise = new Random(seed);
    List<Shot> shots = new ArrayList<>();
    ProofLimits limits = LIMITS.on(held);
    for (Shot s : staked(BENT, interval)) {
      shots.add(
          shot(
              s.id(),
              s.x() + noise.nextDouble(-0.02, 0.02),
              s.y() + noise.nextDouble(-0.02, 0.02),
              s.z() + limits.rodToInvertM() + noise.nextDouble(-0.0024, 0.0024)));
    }
    java.util.Collections.shuffle(shots, noise);
    AsBuiltProof proof = AsBuiltProof.of(BENT, shots, limits);
    assertTrue(proof.passed(), proof.checks().toString());
    assertEquals(shots.size(), proof.shots().size());
    assertEquals(List.of(), proof.notes());
  }

  /** Both rods at a junction held a centimetre beside the main line still show both lines there. */
  @Test
  void aShotWhereTwoLinesMeetShowsBoth() {
    List<Shot> shots = new ArrayList<>();
    for (Shot s : staked(BENT, 2.5)) {
      boolean junction = Math.hypot(s.x() - 20, s.y()) < 1e-6;
      shots.add(junction ? shot(s.id(), 20.01, -0.005, s.z()) : s);
    }
    AsBuiltProof proof = AsBuiltProof.of(BENT, shots, LIMITS);
    assertTrue(proof.passed(), proof.checks().toString());
    assertEquals(List.of(), proof.gaps());
  }

  /** A belly of 4 m whose water is 3 cm deep: a V below the level of its lip. */
  @Test
  void aBellyOfFourMetresIsFoundWithItsDepthAndVolume() {
    AsBuiltProof proof = AsBuiltProof.of(STRAIGHT, straight(1, AsBuiltProofTest::vee), LIMITS);
    List<Belly> found = proof.bellies();
    assertEquals(1, found.size());
    Belly belly = found.get(0);
    assertEquals(10, belly.fromM(), 1e-6);
    assertEquals(14, belly.toM(), 1e-6);
    assertEquals(4, belly.lengthM(), 1e-6);
    assertEquals(0.03, belly.depthM(), 1e-9);
    assertEquals(12, belly.deepestM(), 1e-9);
    // Twice 2 m of depth growing evenly from 0 to 3 cm.
    double expected = 4 * meanOver(h -> segmentM2(h, 0.102), 0, 0.03);
    assertEquals(expected, belly.volumeM3(), expected * 1e-6);
    checkFails(proof, "level", "adverse grade", "belly");
    assertTrue(
        proof
            .page(FieldUnits.METRES)
            .contains("Belly in the main line from station 10.00 to 14.00: 4.000 m long, 0.030 m"));
  }

  private static double vee(double s) {
    if (s <= 10) {
      return 0;
    }
    double level = -0.01 * 10;
    double built =
        s <= 12
            ? level - 0.015 * (s - 10)
            : s <= 14 ? level - 0.015 * (14 - s) : level - 0.01 * (s - 14);
    return built + 0.01 * s;
  }

  /** The pipe sunk up to 3 cm below its grade over 4 m, seen through a laser's noise. */
  @Property(tries = 60, seed = "20261125")
  void aPipeSunkThreeCentimetresIsFoundThroughTheNoise(
      @ForAll @IntRange(max = 100000) int seed, @ForAll @DoubleRange(min = 6, max = 22) double at) {
    Random noise = new Random(seed);
    Route flat =
        FieldFixtures.route(
            FieldFixtures.line(new double[] {0, 0, 30, 0}, 100, new double[] {0.005}, 0.6));
    DoubleUnaryOperator sunk =
        s -> s < at || s > at + 4 ? 0 : -0.03 * Math.sin(Math.PI * (s - at) / 4);
    List<Shot> shots = new ArrayList<>();
    for (int i = 0; i <= 60; i++) {
      double s = i * 0.5;
      double z = 100 - 0.005 * s + sunk.applyAsDouble(s);
      shots.add(shot("S" + i, s, 0, z + noise.nextDouble(-0.001, 0.001)));
    }
    AsBuiltProof proof = AsBuiltProof.of(flat, shots, LIMITS);
    assertFalse(proof.passed());
    assertEquals(List.of(), proof.blunders());
    Belly deepest =
        proof.bellies().stream()
            .max(java.util.Comparator.comparingDouble(Belly::depthM))
            .orElseThrow();
    // Deepest water by a fine search: the later of the sunk profile against the lip downstream.
    double lip = -1;
    double least = 1;
    for (double s = at + 2; s <= at + 4; s += 0.001) {
      lip = Math.max(lip, -0.005 * s + sunk.applyAsDouble(s));
    }
    for (double s = at; s <= at + 4; s += 0.001) {
      least = Math.min(least, -0.005 * s + sunk.applyAsDouble(s));
    }
    assertEquals(lip - least, deepest.depthM(), 0.004);
    assertTrue(deepest.fromM() >= at - 0.5 && deepest.toM() <= at + 4.6);
  }

  /** A pipe full of standing water: length times its section, and the volume of a cylinder. */
  @Test
  void aDeepSagHoldsAFullPipe() {
    double[] s = {0, 1, 11, 12};
    double[] z = {1, 0, 0, 1};
    Belly belly = BellyFinder.find("main", s, z, 0.1).get(0);
    assertEquals(0.1, belly.depthM(), 1e-12);
    double full = Math.PI * 0.0025;
    // Each end: 0.9 m full, then 0.1 m whose depth falls from full to nothing: half of it.
    assertEquals(full * (10 + 2 * (0.9 + 0.05)), belly.volumeM3(), 1e-9);
  }

  /** Volumes of random sags against a sum of thin slices. */
  @Property(tries = 60, seed = "20261125")
  void volumesAgreeWithThinSlices(@ForAll @IntRange(max = 100000) int seed) {
    Random random = new Random(seed);
    double[] s = new double[12];
    double[] z = new double[12];
    for (int i = 0; i < 12; i++) {
      s[i] = i == 0 ? 0 : s[i - 1] + random.nextDouble(0.3, 3);
      z[i] = -0.01 * s[i] + random.nextDouble(-0.05, 0.05);
    }
    double expected = 0;
    int slices = 120_000;
    double width = s[11] / slices;
    double level = z[11];
    for (int k = slices - 1; k >= 0; k--) {
      double at = (k + 0.5) * width;
      int i = 0;
      while (s[i + 1] < at) {
        i++;
      }
      double invert = z[i] + (z[i + 1] - z[i]) * (at - s[i]) / (s[i + 1] - s[i]);
      level = Math.max(level, invert);
      expected += width * segmentM2(Math.min(0.102, level - invert), 0.102);
    }
    double found =
        BellyFinder.find("main", s, z, 0.102).stream().mapToDouble(Belly::volumeM3).sum();
    assertEquals(expected, found, 1e-6 + expected * 1e-3);
  }

  /** A misread rod is named and fails the proof until it is shot again; its neighbours stand. */
  @Property(tries = 60, seed = "20261125")
  void aPlantedRodBlunderIsNamed(
      @ForAll @IntRange(max = 30) int which,
      @ForAll @DoubleRange(min = 0.15, max = 3) double by,
      @ForAll boolean up) {
    List<Shot> shots = new ArrayList<>(straight(1, s -> 0.004 * Math.sin(s)));
    Shot good = shots.get(which);
    shots.set(which, shot(good.id(), good.x(), good.y(), good.z() + (up ? by : -by)));
    AsBuiltProof proof = AsBuiltProof.of(STRAIGHT, shots, LIMITS);
    assertEquals(List.of(good.id()), proof.blunders().stream().map(b -> b.shot().id()).toList());
    assertEquals(up ? by : -by, proof.blunders().get(0).offM(), 0.01);
    checkFails(proof, "shots agree");
    assertTrue(proof.page(FieldUnits.METRES).contains("Shot " + good.id() + " at station"));
  }

  @Test
  void aFootAndAMetreMisreadAreHinted() {
    assertEquals("a foot misread", hint(0.3048));
    assertEquals("a metre misread", hint(-1.0));
    assertEquals("decimetres misread", hint(0.2));
    assertEquals("", hint(0.155));
  }

  private static String hint(double by) {
    List<Shot> shots = new ArrayList<>(straight(1, s -> 0));
    Shot good = shots.get(7);
    shots.set(7, shot(good.id(), good.x(), good.y(), good.z() + by));
    return AsBuiltProof.of(STRAIGHT, shots, LIMITS).blunders().get(0).hint();
  }

  @Test
  void stationOffsetAndDifferenceAreThoseReckonedByHand() {
    // 4 m after the bend, 30 mm right of the north-bound leg, 12 mm high.
    List<Shot> shots = new ArrayList<>(staked(BENT, 2));
    shots.add(shot("here", 20.03, 4.0, 100.8 - 0.08 + 0.012));
    AsBuiltProof proof = AsBuiltProof.of(BENT, shots, LIMITS);
    ProofShot here =
        proof.shots().stream().filter(s -> s.shot().id().equals("here")).findFirst().orElseThrow();
    assertEquals("main", here.line());
    assertEquals(24, here.stationM(), 1e-9);
    assertEquals(0.03, here.offsetM(), 1e-9);
    assertEquals(0.012, here.differenceM(), 1e-9);
    assertEquals(0.6 - 0.012 - 0.116, here.coverM(), 1e-9);
    assertTrue(proof.passed());
  }

  @Test
  void aStretchWithoutShotsIsSaidAndFails() {
    List<Shot> shots =
        staked(BENT, 2).stream().filter(s -> s.x() < 6 || s.x() > 13 || s.y() > 0.1).toList();
    AsBuiltProof proof = AsBuiltProof.of(BENT, shots, LIMITS);
    checkFails(proof, "complete");
    assertEquals(List.of(new Gap("main", 4, 14)), rounded(proof.gaps()));
    assertTrue(
        proof
            .page(FieldUnits.METRES)
            .contains("No shot shows the main line from station 4.00 to 14.00 (10.000 m)."));
  }

  @Test
  void aBranchWithoutShotsIsSaidAndFails() {
    List<Shot> shots = staked(BENT, 2).stream().filter(s -> s.x() <= 20.001).toList();
    AsBuiltProof proof = AsBuiltProof.of(BENT, shots, LIMITS);
    checkFails(proof, "complete");
    assertEquals("branch 1", proof.gaps().get(0).line());
    assertTrue(proof.notes().contains("No shot shows branch 1."));
  }

  /** A branch that comes in 8 cm above the main line's invert, by a wye and a riser. */
  @Test
  void aShotWhereLinesMeetIsHeldAgainstTheOneItFits() {
    Route stepped =
        FieldFixtures.route(
            BENT.main(),
            new Route.Branch(
                FieldFixtures.line(new double[] {28, 0, 20, 0}, 100.96, new double[] {0.01}, 0.5),
                20));
    List<Shot> shots = staked(stepped, 2);
    AsBuiltProof proof = AsBuiltProof.of(stepped, shots, LIMITS);
    assertTrue(proof.passed(), proof.checks().toString());
    assertEquals(5, proof.shots().stream().filter(s -> s.line().equals("branch 1")).count());
  }

  @Test
  void aPipeLaidHighLowOrBesideItsLineFails() {
    checkFails(AsBuiltProof.of(STRAIGHT, straight(1, s -> 0.021), LIMITS), "level");
    checkFails(AsBuiltProof.of(STRAIGHT, straight(1, s -> -0.021), LIMITS), "level");
    List<Shot> beside =
        straight(1, s -> 0).stream().map(s -> shot(s.id(), s.x(), -0.15, s.z())).toList();
    AsBuiltProof proof = AsBuiltProof.of(STRAIGHT, beside, LIMITS);
    checkFails(proof, "line");
    assertTrue(proof.notes().contains("The pipe lies to the right of its line throughout."));
    assertTrue(AsBuiltProof.of(STRAIGHT, beside, LIMITS.within(0.02, 0.2)).passed());
  }

  @Test
  void coverThatIsLostIsFound() {
    Route shallow =
        FieldFixtures.route(
            FieldFixtures.line(new double[] {0, 0, 30, 0}, 100, new double[] {0.01}, 0.28));
    List<Shot> high =
        straight(1, s -> s > 10 && s < 20 ? 0.06 * Math.sin(Math.PI * (s - 10) / 10) : 0);
    AsBuiltProof proof = AsBuiltProof.of(shallow, high, LIMITS);
    assertTrue(failed(proof).contains("cover"), failed(proof));
    // By hand: 0.28 m deep, 60 mm high, 116 mm of pipe leave 0.104 m of the 0.15 m asked.
    ProofCheck cover =
        proof.checks().stream()
            .filter(c -> c.name().equals("missing cover"))
            .findFirst()
            .orElseThrow();
    assertEquals(0.046, cover.worstM(), 1e-9);
  }

  @Test
  void aRodHeldOnTopOfThePipeIsRecognised() {
    double height = (0.116 + 0.102) / 2;
    List<Shot> onTop = straight(1, s -> height);
    assertTrue(
        AsBuiltProof.of(STRAIGHT, onTop, LIMITS).notes().get(0).contains("on top of the pipe?"));
    assertTrue(AsBuiltProof.of(STRAIGHT, onTop, LIMITS.on(ProofLimits.Held.TOP)).passed());
  }

  @Test
  void shotsThatCannotBeOfThePipeAreRefusedInOneLine() {
    List<Shot> good = staked(far(BENT), 1);
    checkRefused(List.of(), "there are none");
    checkRefused(good.subList(0, 1), "one shot shows a level but no grade");
    checkRefused(moved(good, 0, 80), "none lies within 3 m of the planned line; the closest is");
    checkRefused(
        good.stream().map(s -> shot(s.id(), s.y(), s.x(), s.z())).toList(),
        "northing and easting are in the wrong order");
    checkRefused(
        good.stream().map(s -> shot(s.id(), s.x() / 0.3048, s.y() / 0.3048, s.z())).toList(),
        "the coordinates are in feet, not metres");
    checkRefused(
        good.stream().map(s -> shot(s.id(), s.x(), s.y(), s.z() / 0.3048)).toList(),
        "elevations fit the plan only if they are in feet");
    List<Shot> mixed = new ArrayList<>(good);
    for (int i = 3; i < 6; i++) {
      mixed.set(
          i, shot(good.get(i).id(), good.get(i).x(), good.get(i).y(), good.get(i).z() / 0.3048));
    }
    checkRefused(mixed, "units seem to be mixed: the elevations of S4, S5, S6 fit");
    checkRefused(
        good.stream().map(s -> shot(s.id(), s.x(), s.y(), s.z() + 7.25)).toList(),
        "they lie 7.25 m above the plan throughout");
    checkRefused(
        good.stream().map(s -> shot(s.id(), s.x(), s.y(), Double.NaN)).toList(), "no number");
  }

  @Test
  void shotsOfOtherThingsAreNamedAndLeftOut() {
    List<Shot> shots = new ArrayList<>(straight(1, s -> 0));
    shots.add(shot("house", 12, 9, 101.2));
    AsBuiltProof proof = AsBuiltProof.of(STRAIGHT, shots, LIMITS);
    assertTrue(proof.passed());
    assertEquals("house", proof.strays().get(0).id());
    assertTrue(proof.page(FieldUnits.FEET).contains("left out: house"));
  }

  @Test
  void theTableHasEveryShotAndOrderDoesNotMatter() {
    List<Shot> shots = new ArrayList<>(staked(BENT, 2));
    String csv = AsBuiltProof.of(BENT, shots, LIMITS).csv(FieldUnits.METRES);
    assertEquals(shots.size() + 1, csv.lines().count());
    java.util.Collections.reverse(shots);
    assertEquals(csv, AsBuiltProof.of(BENT, shots, LIMITS).csv(FieldUnits.METRES));
  }

  @Test
  void hostileNamesStayText() {
    List<Shot> shots = new ArrayList<>(straight(1, s -> 0));
    shots.set(3, shot("<img src=x>", 3, 0, shots.get(3).z()));
    shots.set(4, shot("=1+1", 4, 0, shots.get(4).z()));
    AsBuiltProof proof = AsBuiltProof.of(STRAIGHT, shots, LIMITS);
    assertFalse(proof.page(FieldUnits.METRES).contains("<img"));
    assertTrue(proof.csv(FieldUnits.METRES).contains(",'=1+1,"));
  }

  private static Route far(Route route) {
    return FieldFixtures.moved(route, 512_300, 4_981_200);
  }

  private static void checkRefused(List<Shot> shots, String expected) {
    Route route = far(BENT);
    String message =
        assertThrows(BadInputException.class, () -> AsBuiltProof.of(route, shots, LIMITS))
            .getMessage();
    assertTrue(message.contains(expected), message);
    assertEquals(1, message.lines().count());
  }

  /** Exactly these checks fail; a name with {@code ?} may. */
  private static void checkFails(AsBuiltProof proof, String... names) {
    List<String> must = List.of(names).stream().filter(n -> !n.endsWith("?")).toList();
    String allowed = String.join(" ", names);
    assertFalse(proof.passed());
    for (ProofCheck check : proof.checks()) {
      if (must.contains(check.name())) {
        assertFalse(check.passed(), check.toString());
      } else {
        assertTrue(check.passed() || allowed.contains(check.name() + "?"), check.toString());
      }
    }
  }

  private static String failed(AsBuiltProof proof) {
    return proof.checks().stream()
        .filter(c -> !c.passed())
        .map(ProofCheck::name)
        .collect(Collectors.joining(", "));
  }

  private static List<Gap> rounded(List<Gap> gaps) {
    return gaps.stream()
        .map(
            g ->
                new Gap(g.line(), Math.rint(g.fromM() * 1e6) / 1e6, Math.rint(g.toM() * 1e6) / 1e6))
        .toList();
  }

  /** A shot on the invert at every stake, S1, S2 … */
  private static List<Shot> staked(Route route, double intervalM) {
    List<Shot> shots = new ArrayList<>();
    for (CutSheet.Line line :
        CutSheet.of(route, StakeSettings.of(FieldFixtures.SECTION).every(intervalM)).lines()) {
      for (CutRow row : line.rows()) {
        shots.add(shot("S" + (shots.size() + 1), row.at().x, row.at().y, row.invertM()));
      }
    }
    return shots;
  }

  /** Shots along the straight route, laid off its plan by some amount at each station. */
  private static List<Shot> straight(double intervalM, DoubleUnaryOperator offM) {
    List<Shot> shots = new ArrayList<>();
    for (int i = 0; i * intervalM <= 30; i++) {
      double s = i * intervalM;
      shots.add(shot("S" + i, s, 0, 100 - 0.01 * s + offM.applyAsDouble(s)));
    }
    return shots;
  }

  private static List<Shot> moved(List<Shot> shots, double dx, double dy) {
    return shots.stream().map(s -> shot(s.id(), s.x() + dx, s.y() + dy, s.z())).toList();
  }

  private static Shot shot(String id, double x, double y, double z) {
    return new Shot(id, x, y, z, "");
  }

  /** Area of a circular segment by its central angle: r²(θ − sin θ)/2. */
  private static double segmentM2(double depth, double diameter) {
    double angle = 2 * Math.acos(1 - 2 * depth / diameter);
    return diameter * diameter / 8 * (angle - Math.sin(angle));
  }

  /** Mean of a function by Simpson's rule. */
  private static double meanOver(DoubleUnaryOperator f, double from, double to) {
    int n = 2000;
    double sum = f.applyAsDouble(from) + f.applyAsDouble(to);
    for (int i = 1; i < n; i++) {
      sum += f.applyAsDouble(from + (to - from) * i / n) * (i % 2 == 1 ? 4 : 2);
    }
    return sum / (3 * n);
  }
}
