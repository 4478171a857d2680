// Marks a loop that is worth building twice: once for every x86-64, once for machines with AVX2, the right
// one picked when the program starts.
//
// Both do the same operations in the same order and none fuses a multiply with an add, so that the numbers do
// not depend on the machine. Under the sanitizers there is one version only: their run-time is not yet up
// when the choice is made. Elsewhere (other processors, other compilers) the mark means nothing.
#pragma once

#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && !defined(__SANITIZE_ADDRESS__)
#define PUMPWRIGHT_VECTOR_LOOP __attribute__((target_clones("avx2", "default")))
#else
#define PUMPWRIGHT_VECTOR_LOOP
#endif
