/** Drain routes with fall all the way, and a reason for every one that has it not. */
package org.yardfall.route;
