// The speed of exact motion beside its rivals: FLINT's dense exact matrices and Eigen's sparse doubles.
//
// Ours starts from the train as a value and ends with every joint's rate; the rivals start from a matrix that is ready.
// Names are RIVAL/FAMILY/MEMBERS; compare.sh prints the ratios that matter.
#include <benchmark/benchmark.h>
#include <flint/fmpq_mat.h>
#include <flint/fmpz_mat.h>

#include <Eigen/SparseLU>
#include <string>
#include <vector>

#include "bench/named_families.hpp"
#include "motion/elimination.hpp"
#include "motion/motion.hpp"
#include "motion/pose.hpp"
#include "support/equations.hpp"

namespace couplet {
namespace {

RateRows driven_rows(const FamilyTrain& family) {
    return joined(still_rows(family.train, family.setting), driver_rows(family.train, family.setting));
}

void solve_ours(benchmark::State& state, const std::string& family_name, int members) {
    const FamilyTrain family = family_named(family_name, members);
    int steps_beyond_words = 0;
    for (auto _ : state) {
        const Motion motion = solve(family.train, family.setting);
        benchmark::DoNotOptimize(motion.joint_rates.data());
        steps_beyond_words = motion.steps_beyond_words;
    }
    state.counters["steps_beyond_words"] = steps_beyond_words;
}

void solve_by_flint_nullspace(benchmark::State& state, const std::string& family_name, int members) {
    const FamilyTrain family = family_named(family_name, members);
    const RateRows rows = still_rows(family.train, family.setting);
    const auto columns = static_cast<slong>(family.train.members.size());
    fmpz_mat_t matrix;
    fmpz_mat_t nullspace;
    fmpz_mat_init(matrix, static_cast<slong>(rows.size()), columns);
    fmpz_mat_init(nullspace, columns, columns);
    for (std::size_t r = 0; r < rows.size(); ++r)
        for (const auto& [column, coefficient] : rows[r])
            fmpz_set_si(fmpz_mat_entry(matrix, static_cast<slong>(r), static_cast<slong>(column)), coefficient);
    for (auto _ : state) benchmark::DoNotOptimize(fmpz_mat_nullspace(nullspace, matrix));
    fmpz_mat_clear(matrix);
    fmpz_mat_clear(nullspace);
}

void solve_by_flint(benchmark::State& state, const std::string& family_name, int members) {
    const FamilyTrain family = family_named(family_name, members);
    const RateRows rows = driven_rows(family);
    const auto size = static_cast<slong>(rows.size());
    fmpq_mat_t matrix;
    fmpq_mat_t right;
    fmpq_mat_t rates;
    fmpq_mat_init(matrix, size, size);
    fmpq_mat_init(right, size, 1);
    fmpq_mat_init(rates, size, 1);
    for (std::size_t r = 0; r < rows.size(); ++r)
        for (const auto& [column, coefficient] : rows[r])
            fmpq_set_si(fmpq_mat_entry(matrix, static_cast<slong>(r), static_cast<slong>(column)), coefficient, 1);
    fmpq_one(fmpq_mat_entry(right, size - 1, 0));
    for (auto _ : state) benchmark::DoNotOptimize(fmpq_mat_solve(rates, matrix, right));
    fmpq_mat_clear(matrix);
    fmpq_mat_clear(right);
    fmpq_mat_clear(rates);
}

void solve_by_eigen(benchmark::State& state, const std::string& family_name, int members) {
    const FamilyTrain family = family_named(family_name, members);
    const RateRows rows = driven_rows(family);
    std::vector<Eigen::Triplet<double>> entries;
    for (std::size_t r = 0; r < rows.size(); ++r)
        for (const auto& [column, coefficient] : rows[r])
            entries.emplace_back(static_cast<int>(r), static_cast<int>(column), static_cast<double>(coefficient));
    const auto size = static_cast<Eigen::Index>(rows.size());
    Eigen::SparseMatrix<double> matrix(size, size);
    matrix.setFromTriplets(entries.begin(), entries.end());
    Eigen::VectorXd right = Eigen::VectorXd::Zero(size);
    right[size - 1] = 1.0;
    for (auto _ : state) {
        Eigen::SparseLU<Eigen::SparseMatrix<double>> factors;
        factors.analyzePattern(matrix);
        factors.factorize(matrix);
        const Eigen::VectorXd rates = factors.solve(right);
        benchmark::DoNotOptimize(rates.data());
    }
}

std::array<FourWords, 3> simple_set_matrix() {
    const FamilyTrain family = family_a(4);
    std::array<FourWords, 3> matrix{};
    const RateRows rows = still_rows(family.train, family.setting);
    for (std::size_t r = 0; r < matrix.size(); ++r)
        for (const auto& [column, coefficient] : rows[r]) matrix[r][column] = coefficient;
    return matrix;
}

void null_vector_ours(benchmark::State& state) {
    std::array<FourWords, 3> matrix = simple_set_matrix();
    for (auto _ : state) {
        benchmark::DoNotOptimize(matrix);
        benchmark::DoNotOptimize(null_vector(matrix));
    }
}

// Poses of ten thousand members at a time that is no whole number of turns of anything.
const Ratio kTurns(12345678, 1000);

void joint_pose(benchmark::State& state) {
    const FamilyTrain family = many_small_sets(10000);
    const Motion motion = solve(family.train, family.setting);
    for (auto _ : state) benchmark::DoNotOptimize(joint_phases_turns(motion, kTurns).data());
}

void frame_pose(benchmark::State& state) {
    const FamilyTrain family = many_small_sets(10000);
    const Motion motion = solve(family.train, family.setting);
    for (auto _ : state)
        benchmark::DoNotOptimize(frame_phases_turns(family.train, joint_phases_turns(motion, kTurns)).data());
}

using FamilyBenchmark = void (*)(benchmark::State&, const std::string&, int);

void add_all(const std::string& rival, FamilyBenchmark run, const std::vector<int>& sizes) {
    for (const std::string family : kFamilyNames)
        for (const int members : sizes)
            benchmark::RegisterBenchmark((rival + "/" + family + "/" + std::to_string(members)).c_str(), run, family,
                                         members);
}

}  // namespace
}  // namespace couplet

int main(int argc, char** argv) {
    using namespace couplet;
    benchmark::Initialize(&argc, argv);
    if (benchmark::ReportUnrecognizedArguments(argc, argv)) return 2;
    benchmark::RegisterBenchmark("ours/null_vector", null_vector_ours);
    add_all("ours", solve_ours, {4, 20, 100, 1000, 10000});
    add_all("flint_nullspace", solve_by_flint_nullspace, {4, 20, 100});
    add_all("flint_solve", solve_by_flint, {20, 100});
    add_all("eigen_lu", solve_by_eigen, {100, 1000, 10000});
    benchmark::RegisterBenchmark("ours/joint_pose/10000", joint_pose);
    benchmark::RegisterBenchmark("ours/frame_pose/10000", frame_pose);
    benchmark::RunSpecifiedBenchmarks();
    flint_cleanup();
}
