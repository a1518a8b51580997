package org.yardfall.elevation;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.yardfall.site.Assumption;
import org.yardfall.site.BadInputException;
import org.yardfall.site.ShotInput;
import org.yardfall.site.ShotRole;

/**
 * The ground between survey shots: a Delaunay triangulation that keeps the breaklines, without the
 * triangles that reach across unsurveyed ground at its rim, never beyond the shots.
 */
public final class ShotSurface {

  private static final GeometryFactory FACTORY = new GeometryFactory();

  /** Shots nearer than this on plan are one; common practice, no source. */
  private static final double SAME_PLACE_M = 0.01;

  /** The rim's longest edge as a multiple of the usual edge, and at least. */
  private static final double RIM_EDGES = 8;

  private static final double LEAST_RIM_EDGE_M = 20;

  private static final double FINEST_CELL_M = 0.1;
  private static final double COARSEST_CELL_M = 1;
  private static final double[] CELLS_M = {0.1, 0.2, 0.25, 0.5, 1};
  private static final double MOST_CELLS = 16e6;

  /** Cells smaller than this share of the shots' spacing show no more than the triangles. */
  private static final double SUPPORTED = 0.25;

  private final Shots shots;
  private final List<Shot> ground;

  /** For every shot used, the one that stands for its place. */
  private final Map<Shot, Shot> placed = new HashMap<>();

  /** Vertices that a breakline goes through: there the ground is known to bend. */
  private final BitSet onLines = new BitSet();

  private final Tin tin;
  private final double cellM;
  private final List<Assumption> assumptions = new ArrayList<>();
  private final List<String> warnings = new ArrayList<>();

  private ShotSurface(Shots shots, ShotInput input) {
    this.shots = shots;
    FieldCodes codes = new FieldCodes(input.roles());
    List<Shot> onGround =
        shots.shots().stream().filter(shot -> codes.role(shot).onGround()).toList();
    sayUnusedCodes(codes);
    Tin whole;
    if (shots.tin().isPresent()) {
      whole = shots.tin().get();
      ground = List.of();
    } else {
      checkEnough(onGround);
      ShotPlaces places = ShotPlaces.of(onGround, SAME_PLACE_M);
      places.warning(shots.source()).ifPresent(warnings::add);
      placed.putAll(places.placed());
      ground = withoutBlunders(places.apart());
      whole = triangulated(codes, input);
    }
    double limitM = input.longestEdgeM().orElseGet(() -> usualRim(whole));
    tin = whole.trimmed(limitM);
    int dropped = whole.triangles() - tin.triangles();
    if (tin.triangles() == 0) {
      throw new BadInputException(
          shots.source(),
          String.format(Locale.ROOT, "no triangle has all its edges within %.4g m", limitM),
          "give a longer elevation.longest-edge");
    }
    if (input.longestEdgeM().isEmpty() && dropped > 0) {
      assumptions.add(
          new Assumption(
              "elevation.longest-edge",
              String.format(
                  Locale.ROOT,
                  "%.4g m at the rim; %d triangles beyond it dropped",
                  limitM,
                  dropped),
              "eight times the usual distance between shots; common practice, no source"));
    }
    cellM = cell(input);
  }

  /**
   * The surface of shots.
   *
   * @param shots the shots
   * @param input what the user says of codes, cell and rim
   * @throws BadInputException where fewer than three places are known or all lie on a line
   */
  public static ShotSurface of(Shots shots, ShotInput input) {
    return new ShotSurface(shots, input);
  }

  private void checkEnough(List<Shot> onGround) {
    if (onGround.size() < 3) {
      throw new BadInputException(
          shots.source(),
          onGround.size() == 1
              ? "a single shot makes no surface"
              : onGround.size() + " shots on the ground make no surface",
          "give at least three that do not lie on a line, better one every few metres");
    }
  }

  private void sayUnusedCodes(FieldCodes codes) {
    List<String> unused = codes.unused(shots.shots());
    if (!unused.isEmpty()) {
      warnings.add(shots.source() + ": no shot carries the codes " + String.join(", ", unused));
    }
  }

  private List<Shot> withoutBlunders(List<Shot> apart) {
    Tin plain = delaunay(apart, List.of(), List.of());
    List<BlunderFinder.Blunder> blunders = BlunderFinder.find(plain);
    if (blunders.isEmpty()) {
      return apart;
    }
    boolean[] gone = new boolean[apart.size()];
    List<String> named = new ArrayList<>();
    for (BlunderFinder.Blunder blunder : blunders) {
      gone[blunder.vertex()] = true;
      named.add(
          String.format(
              Locale.ROOT,
              "%s (%.2f m %s)",
              apart.get(blunder.vertex()).id(),
              Math.abs(blunder.offM()),
              blunder.offM() > 0 ? "above" : "below"));
    }
    warnings.add(
        shots.source()
            + ": shots that stand off the ground of their neighbours, left out: "
            + PointNumbers.list(named));
    List<Shot> kept =
        IntStream.range(0, apart.size()).filter(i -> !gone[i]).mapToObj(apart::get).toList();
    checkEnough(kept);
    placed.values().retainAll(new HashSet<>(kept));
    return kept;
  }

  private Tin triangulated(FieldCodes codes, ShotInput input) {
    List<LineString> lines = new ArrayList<>(shots.breaklines());
    lines.addAll(coded(codes, input));
    if (lines.isEmpty()) {
      return delaunay(ground, List.of(), List.of());
    }
    try {
      Breaklines noded = Breaklines.node(lines, SAME_PLACE_M / 2);
      noded.warnings().forEach(warning -> warnings.add(shots.source() + ": " + warning));
      return constrained(noded.segments());
    } catch (RuntimeException e) {
      if (e instanceof BadInputException bad) {
        throw bad;
      }
      warnings.add(
          shots.source()
              + ": its breaklines cannot be kept together; the surface is made without them ("
              + e.getMessage()
              + ")");
      return delaunay(ground, List.of(), List.of());
    }
  }

  /** Breaklines by code, through the places as merged and without the blunders. */
  private List<LineString> coded(FieldCodes codes, ShotInput input) {
    double longestM = input.longestEdgeM().orElse(Double.POSITIVE_INFINITY);
    List<Shot> parted = new ArrayList<>();
    List<LineString> lines = new ArrayList<>();
    List<Shot> used = shots.shots().stream().filter(placed::containsKey).toList();
    for (List<Shot> line : codes.lines(used, ShotRole.BREAKLINE, longestM, parted)) {
      if (line.size() > 1) {
        lines.add(
            FACTORY.createLineString(
                line.stream()
                    .map(shot -> placed.get(shot).coordinate())
                    .toArray(Coordinate[]::new)));
      } else {
        warnings.add(
            shots.source() + ": a breakline of the single shot " + line.get(0).id() + " is none");
      }
    }
    if (!parted.isEmpty()) {
      warnings.add(
          shots.source()
              + ": breaklines parted where shots lie further apart than elevation.longest-edge,"
              + " before "
              + PointNumbers.of(parted));
    }
    return lines;
  }

  private Tin constrained(List<Coordinate[]> segments) {
    Map<Coordinate, Integer> number = new HashMap<>();
    for (int i = 0; i < ground.size(); i++) {
      number.put(ground.get(i).coordinate(), i);
    }
    List<Coordinate> added = new ArrayList<>();
    List<int[]> pairs = new ArrayList<>();
    for (Coordinate[] segment : segments) {
      int[] pair = new int[2];
      for (int end = 0; end < 2; end++) {
        Coordinate at = segment[end];
        pair[end] =
            number.computeIfAbsent(
                at,
                k -> {
                  added.add(at);
                  return ground.size() + added.size() - 1;
                });
        onLines.set(pair[end]);
      }
      pairs.add(pair);
    }
    return delaunay(ground, added, pairs);
  }

  private Tin delaunay(List<Shot> points, List<Coordinate> added, List<int[]> segments) {
    int n = points.size() + added.size();
    double[] x = new double[n];
    double[] y = new double[n];
    double[] z = new double[n];
    for (int i = 0; i < n; i++) {
      Coordinate at = i < points.size() ? points.get(i).coordinate() : added.get(i - points.size());
      x[i] = at.x;
      y[i] = at.y;
      z[i] = at.getZ();
    }
    return Triangulator.delaunay(x, y, z, segments)
        .filter(found -> found.areaM2() > 0)
        .orElseThrow(
            () ->
                new BadInputException(
                    shots.source(),
                    "all its shots lie on one line, which makes no surface",
                    "give shots to both sides of it"));
  }

  private static double usualRim(Tin whole) {
    int[] corners = whole.corners();
    double[] edges = new double[corners.length];
    for (int i = 0; i < corners.length; i++) {
      int base = i - i % 3;
      int next = corners[base + (i + 1 - base) % 3];
      edges[i] =
          Math.hypot(
              whole.x()[corners[i]] - whole.x()[next], whole.y()[corners[i]] - whole.y()[next]);
    }
    Arrays.sort(edges);
    return Math.max(LEAST_RIM_EDGE_M, RIM_EDGES * edges[edges.length / 2]);
  }

  private double cell(ShotInput input) {
    double spacingM = spacingM();
    double leastM = Math.sqrt(tin.envelope().getArea() / MOST_CELLS);
    double cell =
        input
            .cellM()
            .orElseGet(
                () ->
                    Arrays.stream(CELLS_M)
                        .filter(size -> size >= Math.min(spacingM / 2, COARSEST_CELL_M) * 0.8)
                        .findFirst()
                        .orElse(FINEST_CELL_M));
    if (input.cellM().isEmpty()) {
      while (cell < leastM) {
        cell *= 2;
      }
      assumptions.add(
          new Assumption(
              "elevation.cell",
              String.format(Locale.ROOT, "%.4g m", cell),
              String.format(
                  Locale.ROOT,
                  "about half the shots' spacing of %.3g m, at most 1 m; common practice, no source",
                  spacingM)));
    }
    if (cell < SUPPORTED * spacingM) {
      warnings.add(
          String.format(
              Locale.ROOT,
              "%s: one shot every %.3g m on average does not support cells of %.3g m; between"
                  + " shots the ground is taken as flat triangles",
              shots.source(),
              spacingM,
              cell));
    }
    return cell;
  }

  /** The surface. */
  public Tin tin() {
    return tin;
  }

  /** The shots it was made from: one a place, without blunders. */
  public List<Shot> ground() {
    return ground;
  }

  /** The side of the square that falls to a shot on average, in metres. */
  public double spacingM() {
    long vertices = Arrays.stream(tin.corners()).distinct().count();
    return Math.sqrt(tin.areaM2() / vertices);
  }

  /**
   * How well it knows the ground between shots: the robust standard deviation of shots about the
   * ground that their neighbours give without them, in metres.
   */
  public double unevennessM() {
    return BlunderFinder.unevennessM(tin);
  }

  /** What the cells of a frame rest on. */
  ShotSupport support(GridFrame frame) {
    double[] off = BlunderFinder.offM(tin);
    onLines.stream().forEach(vertex -> off[vertex] = 0);
    int[] corners = tin.corners();
    double[] most = new double[tin.triangles()];
    double[] lowest = new double[tin.triangles()];
    Arrays.fill(lowest, Double.POSITIVE_INFINITY);
    for (int i = 0; i < corners.length; i++) {
      most[i / 3] = Math.max(most[i / 3], off[corners[i]]);
      lowest[i / 3] = Math.min(lowest[i / 3], tin.z()[corners[i]]);
    }
    return new ShotSupport(tin.flat(frame, most), tin.flat(frame, lowest));
  }

  /** The cell size that suits it, or that was stated, in metres. */
  public double cellM() {
    return cellM;
  }

  /** How far the shots stand from a grid, those on it; bilinear between its cells. */
  public List<ShotResidual> residuals(ElevationGrid grid) {
    return ground.stream()
        .map(shot -> new ShotResidual(shot, shot.z() - grid.bilinear(shot.x(), shot.y())))
        .filter(residual -> !Double.isNaN(residual.offM()))
        .toList();
  }

  /** The shot furthest from a grid. */
  static Optional<ShotResidual> worst(List<ShotResidual> residuals) {
    return residuals.stream()
        .max(java.util.Comparator.comparingDouble(residual -> Math.abs(residual.offM())));
  }

  /** What was assumed while making it. */
  public List<Assumption> assumptions() {
    return List.copyOf(assumptions);
  }

  /** What was odd, with point numbers. */
  public List<String> warnings() {
    return List.copyOf(warnings);
  }
}
