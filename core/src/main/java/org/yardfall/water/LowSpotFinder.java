package org.yardfall.water;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.stream.IntStream;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;

/** Describes the listed depressions as low spots. */
final class LowSpotFinder {

  private static final int STAGES = 10;

  private final ElevationGrid ground;
  private final DepressionHierarchy depressions;
  private final DepressionMeasures measures;
  private final LowSpotListing listing;
  private final Contributing contributing;
  private final BitSet edge;
  private final int[] nearest;
  private final int[] number;

  LowSpotFinder(
      ElevationGrid ground,
      DepressionHierarchy depressions,
      DepressionMeasures measures,
      LowSpotListing listing,
      Contributing contributing,
      BitSet edge) {
    this.ground = ground;
    this.depressions = depressions;
    this.measures = measures;
    this.listing = listing;
    this.contributing = contributing;
    this.edge = edge;
    nearest = listing.nearestListed();
    number = new int[depressions.nodes()];
    for (int i = 0; i < listing.nodes.length; i++) {
      number[listing.nodes[i]] = i + 1;
    }
  }

  /** The low spots in the order of the listing. */
  List<LowSpot> find(NodeCells cells) {
    List<List<String>> children = new ArrayList<>();
    for (int i = 0; i < listing.nodes.length; i++) {
      children.add(new ArrayList<>());
    }
    for (int node : listing.nodes) {
      int holder = holder(node);
      if (holder != 0) {
        children.get(number[holder] - 1).add(id(node));
      }
    }
    return IntStream.range(0, listing.nodes.length)
        .parallel()
        .mapToObj(i -> lowSpot(listing.nodes[i], cells.of(listing.nodes[i]), children.get(i)))
        .toList();
  }

  private LowSpot lowSpot(int node, int[] cells, List<String> childIds) {
    GridFrame frame = ground.frame();
    boolean atLeast = Arrays.stream(cells).anyMatch(edge::get);
    return new LowSpot(
        id(node),
        CellOutline.thinned(frame, cells),
        frame.centre(depressions.bottomCell(node)),
        ground.z()[depressions.bottomCell(node)],
        depressions.spillM(node),
        frame.centre(depressions.spillCell(node)),
        listing.depthM(node),
        measures.cells[node] * frame.cellAreaM2(),
        measures.volumeM3[node],
        contributing.areaM2[node],
        atLeast,
        id(holder(node)),
        childIds,
        id(spillsTo(node)),
        stages(node, cells),
        listing.doubtful[node]);
  }

  private int holder(int node) {
    return nearest[depressions.parent(node)];
  }

  private int spillsTo(int node) {
    int pit = depressions.spillsInto(node);
    while (pit >= depressions.firstNode()) {
      if (nearest[pit] != 0) {
        return nearest[pit];
      }
      pit = depressions.spillsInto(depressions.root(pit));
    }
    return 0;
  }

  private String id(int node) {
    return node == 0 ? "" : LowSpotListing.id(number[node] - 1);
  }

  /** One pass over the cells: each counts from the first level above it on. */
  private List<LowSpot.Stage> stages(int node, int[] cells) {
    double bottomM = ground.z()[depressions.bottomCell(node)];
    double spillM = depressions.spillM(node);
    double[] levelM = new double[STAGES + 1];
    for (int i = 0; i <= STAGES; i++) {
      levelM[i] = i == STAGES ? spillM : bottomM + (spillM - bottomM) * i / STAGES;
    }
    long[] wetted = new long[STAGES + 1];
    double[] depthSum = new double[STAGES + 1];
    double stagesPerM = STAGES / (spillM - bottomM);
    for (int c : cells) {
      float z = ground.z()[c];
      int i = Math.min(STAGES, (int) ((z - bottomM) * stagesPerM));
      while (i > 0 && levelM[i - 1] > z) {
        i--;
      }
      while (levelM[i] <= z) {
        i++;
      }
      wetted[i]++;
      depthSum[i] += levelM[i] - z;
    }
    double cellAreaM2 = ground.frame().cellAreaM2();
    List<LowSpot.Stage> stages = new ArrayList<>();
    long under = 0;
    double sum = 0;
    for (int i = 0; i <= STAGES; i++) {
      sum += depthSum[i] + (i == 0 ? 0 : under * (levelM[i] - levelM[i - 1]));
      under += wetted[i];
      stages.add(new LowSpot.Stage(levelM[i], under * cellAreaM2, sum * cellAreaM2));
    }
    return stages;
  }
}
