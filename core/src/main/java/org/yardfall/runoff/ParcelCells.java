package org.yardfall.runoff;

import java.util.Arrays;
import java.util.BitSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.yardfall.elevation.GridFrame;
import org.yardfall.site.Parcel;
import org.yardfall.site.Site;
import org.yardfall.water.CellsWithin;
import org.yardfall.water.FlowField;

/** Which parcel each cell of a grid belongs to; where parcels overlap, the lot, then the first. */
final class ParcelCells {

  private static final int NONE = -1;

  private final List<Parcel> parcels;
  private final String lotId;
  private final BitSet lot = new BitSet();
  private final int[] parcel;

  ParcelCells(Site site, GridFrame frame) {
    parcels = site.parcels();
    lotId = site.lot().map(Parcel::id).orElse("");
    parcel = new int[frame.size()];
    Arrays.fill(parcel, NONE);
    for (int i = parcels.size() - 1; i >= 0; i--) {
      for (int c : CellsWithin.of(frame, parcels.get(i).outline())) {
        parcel[c] = i;
      }
    }
    if (site.lot().isPresent()) {
      for (int c : CellsWithin.of(frame, site.lot().get().outline())) {
        lot.set(c);
      }
    }
  }

  /** The lot's cells. */
  BitSet lot() {
    return lot;
  }

  /** Id of the parcel of a cell; empty where there is none, or no cell. */
  String id(int cell) {
    if (cell >= 0 && lot.get(cell)) {
      return lotId;
    }
    return cell < 0 || parcel[cell] == NONE ? "" : parcels.get(parcel[cell]).id();
  }

  /** The parcels that water crosses from a cell on, in order, the lot left out. */
  List<String> downstream(int from, FlowField flow) {
    Set<String> ids = new LinkedHashSet<>();
    for (int c = from; c >= 0; c = flow.receiver(c)) {
      if (parcel[c] != NONE && !lot.get(c)) {
        ids.add(id(c));
      }
    }
    return List.copyOf(ids);
  }
}
