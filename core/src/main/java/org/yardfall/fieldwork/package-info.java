/** Levels read, stakes set and pipe proved: what a crew takes to the yard and brings back. */
package org.yardfall.fieldwork;
