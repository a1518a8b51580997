package org.yardfall.runoff;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.yardfall.elevation.GridFrame;
import org.yardfall.site.Site;
import org.yardfall.water.CellsWithin;
import org.yardfall.water.FlowField;

/** Which parcel each cell of a grid belongs to; where parcels overlap, the lot, then the first. */
final class ParcelCells {

  private static final int NONE = 0;

  /** Of ground in no parcel, of the parcels in their order, of the lot. */
  private final List<String> ids = new ArrayList<>();

  private final BitSet lot = new BitSet();
  private final int[] owner;

  ParcelCells(Site site, GridFrame frame) {
    owner = new int[frame.size()];
    ids.add("");
    site.parcels().forEach(parcel -> ids.add(parcel.id()));
    for (int i = site.parcels().size(); i > NONE; i--) {
      for (int c : CellsWithin.of(frame, site.parcels().get(i - 1).outline())) {
        owner[c] = i;
      }
    }
    if (site.lot().isPresent()) {
      for (int c : CellsWithin.of(frame, site.lot().get().outline())) {
        lot.set(c);
        owner[c] = ids.size();
      }
      ids.add(site.lot().get().id());
    }
  }

  /** The lot's cells. */
  BitSet lot() {
    return lot;
  }

  /** Id of the parcel of a cell; empty where there is none, or no cell. */
  String id(int cell) {
    return cell < 0 ? "" : ids.get(owner[cell]);
  }

  /** Number of a cell's parcel among {@link #ids}. */
  int owner(int cell) {
    return owner[cell];
  }

  /** The ids by number; one may come twice. */
  List<String> ids() {
    return ids;
  }

  /** The parcels that water crosses from a cell on, in order, the lot left out. */
  List<String> downstream(int from, FlowField flow) {
    Set<String> ids = new LinkedHashSet<>();
    for (int c = from; c >= 0; c = flow.receiver(c)) {
      if (owner[c] != NONE && !lot.get(c)) {
        ids.add(id(c));
      }
    }
    return List.copyOf(ids);
  }
}
