package org.yardfall.route;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.PriorityQueue;
import java.util.function.DoubleBinaryOperator;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.io.ParseException;
import org.locationtech.jts.io.WKTReader;
import org.locationtech.jts.operation.union.UnaryUnionOp;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.elevation.Terrain;
import org.yardfall.runoff.BoundaryFlow;
import org.yardfall.site.Building;
import org.yardfall.site.Crossing;
import org.yardfall.site.DrainLimits;
import org.yardfall.site.ElevationInput;
import org.yardfall.site.Obstacle;
import org.yardfall.site.Outlet;
import org.yardfall.site.Parcel;
import org.yardfall.site.Prices;
import org.yardfall.site.Site;
import org.yardfall.site.Soil;
import org.yardfall.site.StormInput;
import org.yardfall.site.WorkingCrs;
import org.yardfall.water.FlowField;
import org.yardfall.water.LowSpot;
import org.yardfall.water.SurfaceWater;

/** A made-up yard for tests: ground from a formula, the south-west corner of the grid at 0 0. */
final class Yard {

  private static final int[] DCOL = {1, 1, 0, -1, -1, -1, 0, 1};
  private static final int[] DROW = {0, -1, -1, -1, 0, 1, 1, 1};

  final ElevationGrid ground;
  Optional<Parcel> lot = Optional.empty();
  final List<Parcel> parcels = new ArrayList<>();
  final List<Building> buildings = new ArrayList<>();
  final List<Obstacle> obstacles = new ArrayList<>();
  final List<Crossing> crossings = new ArrayList<>();
  final List<Outlet> outlets = new ArrayList<>();
  final List<BoundaryFlow> flows = new ArrayList<>();
  DrainLimits limits = new DrainLimits(0.01, 0.2, 0.15, 1.2, 0.6, 0.9, 0.45, 0.117, 0.102);
  Soil soil = new Soil('C', OptionalDouble.empty(), null, OptionalDouble.empty());

  private Yard(ElevationGrid ground) {
    this.ground = ground;
  }

  static Yard of(double widthM, double heightM, double cellM, DoubleBinaryOperator z) {
    GridFrame frame =
        new GridFrame(
            (int) Math.round(widthM / cellM), (int) Math.round(heightM / cellM), 0, heightM, cellM);
    float[] cells = new float[frame.size()];
    for (int i = 0; i < cells.length; i++) {
      cells[i] = (float) z.applyAsDouble(frame.x(i % frame.cols()), frame.y(i / frame.cols()));
    }
    return new Yard(new ElevationGrid(frame, cells));
  }

  Yard lot(String wkt) {
    lot = Optional.of(new Parcel("lot", (Polygon) wkt(wkt)));
    parcels.add(lot.get());
    return this;
  }

  Yard neighbour(String id, String wkt) {
    parcels.add(new Parcel(id, (Polygon) wkt(wkt)));
    return this;
  }

  Yard house(String wkt) {
    buildings.add(
        new Building("B" + (buildings.size() + 1), (Polygon) wkt(wkt), OptionalDouble.empty()));
    return this;
  }

  Yard slab(String wkt) {
    crossings.add(new Crossing("walk" + crossings.size(), (Polygon) wkt(wkt), 0.1, 0.1));
    return this;
  }

  Yard obstacle(Obstacle.Kind kind, Obstacle.Passage passage, double clearanceM, String wkt) {
    obstacles.add(
        new Obstacle(
            kind.name() + obstacles.size(),
            kind,
            wkt(wkt),
            clearanceM,
            passage,
            OptionalDouble.empty(),
            0.1));
    return this;
  }

  Yard outlet(Outlet outlet) {
    outlets.add(outlet);
    return this;
  }

  Yard outlet(String id, Outlet.Kind kind, double x, double y, double invertM) {
    return outlet(
        new Outlet(
            id,
            kind,
            new Coordinate(x, y),
            OptionalDouble.of(invertM),
            OptionalDouble.empty(),
            OptionalDouble.empty(),
            ""));
  }

  /** Water that enters over a straight stretch of the property line. */
  Yard inflow(String neighbour, double areaM2, String wkt) {
    LineString stretch = (LineString) wkt(wkt);
    flows.add(
        new BoundaryFlow(
            "I" + (flows.size() + 1),
            true,
            neighbour,
            stretch,
            stretch.getCoordinateN(0),
            0,
            stretch.getLength(),
            areaM2,
            false,
            0,
            0,
            ""));
    return this;
  }

  Yard limits(DrainLimits with) {
    limits = with;
    return this;
  }

  Site site() {
    Map<Prices.Item, Double> prices = new EnumMap<>(Prices.Item.class);
    for (Prices.Item item : Prices.Item.values()) {
      prices.put(item, 10.0);
    }
    prices.put(Prices.Item.TRENCH, 40.0);
    return new Site(
        "a made-up yard",
        new WorkingCrs(null, "local", 1),
        lot,
        parcels,
        buildings,
        obstacles,
        crossings,
        outlets,
        List.of(),
        List.of(),
        soil,
        new StormInput(
            OptionalDouble.of(0.065), OptionalDouble.of(86400), null, OptionalDouble.empty()),
        limits,
        new Prices(prices),
        new ElevationInput(
            List.of(), null, null, OptionalDouble.empty(), "", OptionalDouble.empty(), null),
        List.of(),
        List.of());
  }

  Terrain terrain() {
    return new Terrain(ground, List.of(), 0.02, true, 0, "", List.of(), List.of());
  }

  /** The plainest surface water there is: flooded from the border, steepest descent, one by one. */
  SurfaceWater water() {
    GridFrame frame = ground.frame();
    int n = frame.size();
    float[] z = ground.z().clone();
    for (Building b : buildings) {
      for (int i = 0; i < n; i++) {
        Coordinate c = new Coordinate(frame.x(i % frame.cols()), frame.y(i / frame.cols()));
        if (b.outline().contains(new GeometryFactory().createPoint(c))) {
          z[i] += 5;
        }
      }
    }
    float[] filled = new float[n];
    Arrays.fill(filled, Float.NaN);
    byte[] toward = new byte[n];
    Arrays.fill(toward, FlowField.LEAVES);
    PriorityQueue<Integer> queue =
        new PriorityQueue<>(
            (a, b) -> filled[a] != filled[b] ? Float.compare(filled[a], filled[b]) : a - b);
    List<Integer> order = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      int col = i % frame.cols();
      int row = i / frame.cols();
      if (col == 0 || row == 0 || col == frame.cols() - 1 || row == frame.rows() - 1) {
        filled[i] = z[i];
        queue.add(i);
      }
    }
    while (!queue.isEmpty()) {
      int cell = queue.poll();
      order.add(cell);
      for (int k = 0; k < 8; k++) {
        int next = neighbour(frame, cell, k);
        if (next >= 0 && Float.isNaN(filled[next])) {
          filled[next] = Math.max(z[next], filled[cell]);
          toward[next] = (byte) ((k + 4) % 8);
          queue.add(next);
        }
      }
    }
    for (int i = 0; i < n; i++) {
      double steepest = 0;
      for (int k = 0; k < 8 && toward[i] != FlowField.LEAVES; k++) {
        int next = neighbour(frame, i, k);
        double drop = next < 0 ? 0 : (filled[i] - filled[next]) / (k % 2 == 0 ? 1 : Math.sqrt(2));
        if (drop > steepest) {
          steepest = drop;
          toward[i] = (byte) k;
        }
      }
    }
    FlowField flow = new FlowField(frame, toward);
    double[] area = new double[n];
    Arrays.fill(area, frame.cellAreaM2());
    for (int k = n - 1; k >= 0; k--) {
      int next = flow.receiver(order.get(k));
      if (next >= 0) {
        area[next] += area[order.get(k)];
      }
    }
    return new SurfaceWater(
        new ElevationGrid(frame, z),
        filled,
        flow,
        area,
        new BitSet(),
        lowSpots(frame, z, filled, flow, area),
        List.of(),
        List.of(),
        List.of(),
        List.of());
  }

  private static List<LowSpot> lowSpots(
      GridFrame frame, float[] z, float[] filled, FlowField flow, double[] area) {
    List<LowSpot> spots = new ArrayList<>();
    BitSet seen = new BitSet();
    for (int i = 0; i < z.length; i++) {
      if (seen.get(i) || filled[i] - z[i] < 0.005) {
        continue;
      }
      List<Integer> cells = new ArrayList<>(List.of(i));
      seen.set(i);
      for (int k = 0; k < cells.size(); k++) {
        for (int d = 0; d < 8; d++) {
          int next = neighbour(frame, cells.get(k), d);
          if (next >= 0 && !seen.get(next) && filled[next] - z[next] >= 0.005) {
            seen.set(next);
            cells.add(next);
          }
        }
      }
      int deepest = cells.stream().min((a, b) -> Float.compare(z[a], z[b])).orElseThrow();
      int spill = deepest;
      while (cells.contains(spill)) {
        spill = flow.receiver(spill);
      }
      List<Geometry> squares = new ArrayList<>();
      double volume = 0;
      double contributing = 0;
      for (int cell : cells) {
        squares.add(
            new GeometryFactory()
                .createPoint(centre(frame, cell))
                .buffer(
                    frame.cellM() / 2,
                    1,
                    org.locationtech.jts.operation.buffer.BufferParameters.CAP_SQUARE));
        volume += (filled[cell] - z[cell]) * frame.cellAreaM2();
        contributing = Math.max(contributing, area[cell]);
      }
      spots.add(
          new LowSpot(
              "L" + (spots.size() + 1),
              UnaryUnionOp.union(squares),
              centre(frame, deepest),
              z[deepest],
              filled[deepest],
              centre(frame, spill),
              filled[deepest] - z[deepest],
              cells.size() * frame.cellAreaM2(),
              volume,
              contributing,
              false,
              "",
              List.of(),
              "",
              List.of(),
              ""));
    }
    return spots;
  }

  private static Coordinate centre(GridFrame frame, int cell) {
    return new Coordinate(frame.x(cell % frame.cols()), frame.y(cell / frame.cols()));
  }

  private static int neighbour(GridFrame frame, int cell, int k) {
    int col = cell % frame.cols() + DCOL[k];
    int row = cell / frame.cols() + DROW[k];
    return frame.has(col, row) ? row * frame.cols() + col : -1;
  }

  static Geometry wkt(String text) {
    try {
      return new WKTReader().read(text);
    } catch (ParseException e) {
      throw new IllegalArgumentException(text, e);
    }
  }
}
