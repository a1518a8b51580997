/** A route made buildable: flow along it, pipe by station, quantities, price, cautions. */
package org.yardfall.drain;
