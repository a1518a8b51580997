package org.yardfall.runoff;

import java.util.BitSet;
import java.util.EnumMap;
import java.util.Map;
import java.util.TreeMap;
import org.yardfall.site.Surface.Kind;

/** Ground added up cell by cell: its area by cover and by parcel, and what it gives to the peak. */
@SuppressWarnings("EnumOrdinal") // covers index the array that is added to cell by cell
final class GroundSum {

  private static final Kind[] KINDS = Kind.values();

  private final SurfaceCover cover;
  private final CellRunoff runoff;
  private final ParcelCells parcels;
  private final BitSet edge;

  private final double[] byCoverM2 = new double[KINDS.length];
  private final double[] byParcelM2;
  private final BitSet inParcels = new BitSet();
  private double areaM2;
  private double effectiveM2;
  private boolean cut;

  /**
   * No ground yet.
   *
   * @param edge cells onto which water may come from ground that is not known
   */
  GroundSum(SurfaceCover cover, CellRunoff runoff, ParcelCells parcels, BitSet edge) {
    this.cover = cover;
    this.runoff = runoff;
    this.parcels = parcels;
    this.edge = edge;
    this.byParcelM2 = new double[parcels.ids().size()];
  }

  /** Adds a cell's own cover and the roofs that drip on it. */
  void add(int cell) {
    byCoverM2[cover.at(cell).ordinal()] += cover.openM2(cell);
    byCoverM2[Kind.ROOF.ordinal()] += cover.roofM2()[cell];
    int parcel = parcels.owner(cell);
    inParcels.set(parcel);
    double area = cover.areaM2(cell);
    byParcelM2[parcel] += area;
    areaM2 += area;
    effectiveM2 += runoff.effectiveM2(cell);
    cut |= edge.get(cell);
  }

  /** Area in m². */
  double areaM2() {
    return areaM2;
  }

  /** Area times the coefficients of its covers in m². */
  double effectiveM2() {
    return effectiveM2;
  }

  /** Whether water may come onto it from ground that is not known. */
  boolean isCut() {
    return cut;
  }

  /** Area by cover in m², of the covers that there are. */
  Map<Kind, Double> byCoverM2() {
    Map<Kind, Double> by = new EnumMap<>(Kind.class);
    for (Kind kind : KINDS) {
      if (byCoverM2[kind.ordinal()] > 0) {
        by.put(kind, byCoverM2[kind.ordinal()]);
      }
    }
    return by;
  }

  /** Area in m² by id of the parcel. */
  Map<String, Double> byParcelM2() {
    Map<String, Double> by = new TreeMap<>();
    inParcels.stream().forEach(p -> by.merge(parcels.ids().get(p), byParcelM2[p], Double::sum));
    return by;
  }
}
