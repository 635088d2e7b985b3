#include "view/camera.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <glm/common.hpp>
#include <glm/geometric.hpp>
#include <iterator>
#include <numbers>

namespace couplet {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr Bounds kSquat{{30.0, -20.0, 15.0}, 80.0, 12.0};
constexpr Bounds kTall{{-5.0, 7.0, 100.0}, 10.0, 90.0};
constexpr double kWide = 16.0 / 9;
constexpr double kUpright = 9.0 / 16;

constexpr NamedView kAllViews[] = {NamedView::iso,  NamedView::top,  NamedView::bottom, NamedView::front,
                                   NamedView::back, NamedView::left, NamedView::right};

Camera oblique(Projection projection) {
    Camera camera;
    camera.target_mm = {12.0, -7.0, 30.0};
    camera.distance_mm = 400.0;
    camera.azimuth_rad = 0.7;
    camera.elevation_rad = 0.4;
    camera.view_angle_rad = 0.6;
    camera.projection = projection;
    return camera;
}

// Where the picture shows a point, z being its depth, through the matrices that the renderer uses.
glm::dvec3 seen(const Camera& camera, const glm::dvec3& point_mm, double width_over_height,
                const Bounds& bounds = kSquat) {
    const glm::dvec4 clip =
        clip_from_view(camera, width_over_height, bounds) * view_from_observer(camera) * glm::dvec4(point_mm, 1.0);
    return glm::dvec3(clip) / clip.w;
}

std::vector<glm::dvec3> rim(const Bounds& bounds, int samples = 3600) {
    std::vector<glm::dvec3> points;
    for (int i = 0; i < samples; ++i) {
        const double turn = 2 * kPi * i / samples;
        for (const double end : {-1.0, 1.0})
            points.push_back(bounds.middle_mm + glm::dvec3(bounds.radius_mm * std::cos(turn),
                                                           bounds.radius_mm * std::sin(turn),
                                                           end * bounds.half_height_mm));
    }
    return points;
}

struct Extent {
    glm::dvec2 least{1e9};
    glm::dvec2 most{-1e9};
};

Extent extent(const Camera& camera, double width_over_height, const Bounds& bounds) {
    Extent extent;
    for (const glm::dvec3& point : rim(bounds)) {
        const glm::dvec2 at(seen(camera, point, width_over_height, bounds));
        extent.least = glm::min(extent.least, at);
        extent.most = glm::max(extent.most, at);
    }
    return extent;
}

void expect_near(const glm::dvec3& a, const glm::dvec3& b, double tolerance, const std::string& what = {}) {
    EXPECT_LE(glm::length(a - b), tolerance) << what << " (" << a.x << ", " << a.y << ", " << a.z << ") against ("
                                             << b.x << ", " << b.y << ", " << b.z << ")";
}

double distance_to_line(const Ray& ray, const glm::dvec3& point) {
    return glm::length(glm::cross(point - ray.from_mm, ray.direction));
}

struct Picture {
    glm::dvec3 right;
    glm::dvec3 up;
    glm::dvec3 towards;
};

// The observer's axes as the picture shows them.
Picture picture_axes(const Camera& camera) {
    const glm::dmat3 turn(view_from_observer(camera));
    const glm::dmat3 back = glm::transpose(turn);
    return {back[0], back[1], back[2]};
}

TEST(NamedViews, AreFoundByTheirNames) {
    for (std::size_t i = 0; i < std::size(kNamedViews); ++i) EXPECT_EQ(named_view(kNamedViews[i]), kAllViews[i]);
    EXPECT_EQ(named_view("top"), NamedView::top);
    EXPECT_EQ(named_view("left"), NamedView::left);
    for (const char* name : {"", "Top", "topp", "oblique"}) EXPECT_EQ(named_view(name), std::nullopt) << name;
}

TEST(NamedViews, PlaneViewsShowTheAxesThatTheirNamesPromise) {
    const glm::dvec3 x(1, 0, 0);
    const glm::dvec3 y(0, 1, 0);
    const glm::dvec3 z(0, 0, 1);
    const auto expect = [](NamedView view, const glm::dvec3& right, const glm::dvec3& up, const glm::dvec3& towards) {
        const Camera camera = turned_to(oblique(Projection::perspective), view);
        const Picture axes = picture_axes(camera);
        const std::string name(kNamedViews[static_cast<std::size_t>(view)]);
        expect_near(axes.right, right, 1e-15, name + " right");
        expect_near(axes.up, up, 1e-15, name + " up");
        expect_near(axes.towards, towards, 1e-15, name + " towards the eye");
        EXPECT_EQ(camera.projection, Projection::orthographic) << name;
    };
    expect(NamedView::top, x, y, z);
    expect(NamedView::bottom, x, -y, -z);
    expect(NamedView::front, x, z, -y);
    expect(NamedView::back, -x, z, y);
    expect(NamedView::left, -y, z, -x);
    expect(NamedView::right, y, z, x);
}

TEST(NamedViews, TheObliqueOneShowsThreeAxesEquallyLong) {
    Camera camera = turned_to(oblique(Projection::orthographic), NamedView::iso);
    const Picture axes = picture_axes(camera);
    // The isometric projection shortens each axis to sqrt(2/3), derived: three equal squares of lengths add up to 2.
    for (int i = 0; i < 3; ++i) EXPECT_NEAR(std::hypot(axes.right[i], axes.up[i]), std::sqrt(2.0 / 3), 1e-14) << i;
    EXPECT_GT(axes.right.x, 0.0);
    EXPECT_GT(axes.up.z, 0.0);
    EXPECT_GT(axes.towards.z, 0.0);
}

TEST(NamedViews, KeepTargetDistanceAndViewAngle) {
    for (const NamedView view : kAllViews) {
        const Camera camera = oblique(Projection::perspective);
        const Camera turned = turned_to(camera, view);
        EXPECT_EQ(turned.target_mm, camera.target_mm);
        EXPECT_EQ(turned.distance_mm, camera.distance_mm);
        EXPECT_EQ(turned.view_angle_rad, camera.view_angle_rad);
    }
    EXPECT_EQ(turned_to(oblique(Projection::perspective), NamedView::iso).projection, Projection::perspective);
    EXPECT_EQ(turned_to(oblique(Projection::orthographic), NamedView::iso).projection, Projection::orthographic);
}

TEST(CameraEye, StandsWhereAzimuthAndElevationSay) {
    Camera camera;
    camera.target_mm = {1, 2, 3};
    camera.distance_mm = 10.0;
    camera.elevation_rad = 0.0;
    expect_near(eye_mm(camera), {1, -8, 3}, 1e-14, "azimuth 0 is on -Y");
    camera.azimuth_rad = kPi / 2;
    expect_near(eye_mm(camera), {11, 2, 3}, 1e-14, "counter-clockwise seen from above");
    camera.elevation_rad = kPi / 2;
    expect_near(eye_mm(camera), {1, 2, 13}, 1e-14, "above");
    const Camera any = oblique(Projection::perspective);
    expect_near(glm::dvec3(view_from_observer(any) * glm::dvec4(eye_mm(any), 1)), {0, 0, 0}, 1e-12);
    expect_near(glm::dvec3(view_from_observer(any) * glm::dvec4(any.target_mm, 1)), {0, 0, -400}, 1e-12);
}

TEST(CameraView, IsARotationAndAShift) {
    for (int around = -12; around <= 12; ++around) {
        for (int up = -6; up <= 6; ++up) {
            Camera camera = oblique(Projection::perspective);
            camera.azimuth_rad = 0.37 * around;
            camera.elevation_rad = kPi / 12 * up;
            const glm::dmat3 turn(view_from_observer(camera));
            EXPECT_NEAR(glm::determinant(turn), 1.0, 1e-14);
            const glm::dmat3 square = turn * glm::transpose(turn);
            for (int i = 0; i < 3; ++i)
                for (int k = 0; k < 3; ++k) EXPECT_NEAR(square[i][k], i == k ? 1.0 : 0.0, 1e-14);
            EXPECT_GE(picture_axes(camera).up.z, -1e-15) << "+Z is never upside down";
        }
    }
}

TEST(CameraClip, BothProjectionsAgreeInTheTargetsPlane) {
    const Camera perspective = oblique(Projection::perspective);
    const Camera orthographic = oblique(Projection::orthographic);
    const Picture axes = picture_axes(perspective);
    for (const double across : {-120.0, -3.0, 0.0, 55.0}) {
        for (const double up : {-80.0, 0.0, 100.0}) {
            const glm::dvec3 point = perspective.target_mm + across * axes.right + up * axes.up;
            const glm::dvec2 one(seen(perspective, point, kWide));
            const glm::dvec2 other(seen(orthographic, point, kWide));
            EXPECT_LE(glm::length(one - other), 1e-12);
        }
    }
}

TEST(CameraClip, ThePicturesHeightIsTheOneThatIsTold) {
    for (const Projection projection : {Projection::perspective, Projection::orthographic}) {
        const Camera camera = oblique(projection);
        const double half_mm = height_at_target_mm(camera) / 2;
        EXPECT_NEAR(half_mm, 400 * std::tan(0.3), 1e-12);  // derived: half of the view angle at the distance
        const Picture axes = picture_axes(camera);
        EXPECT_NEAR(seen(camera, camera.target_mm + half_mm * axes.up, kWide).y, 1.0, 1e-12);
        EXPECT_NEAR(seen(camera, camera.target_mm + half_mm * kWide * axes.right, kWide).x, 1.0, 1e-12);
    }
}

TEST(CameraClip, DepthGrowsAwayFromTheEyeAndEnclosesTheBounds) {
    for (const Projection projection : {Projection::perspective, Projection::orthographic}) {
        for (const Bounds& bounds : {kSquat, kTall}) {
            for (const NamedView view : kAllViews) {
                Camera camera = turned_to(oblique(projection), view);
                camera.projection = projection;
                camera = fitted(camera, bounds, kWide);
                for (const glm::dvec3& point : rim(bounds)) {
                    const double depth = seen(camera, point, kWide, bounds).z;
                    ASSERT_GT(depth, -1.0);
                    ASSERT_LT(depth, 1.0);
                    const glm::dvec3 nearer = point + 0.1 * picture_axes(camera).towards;
                    ASSERT_LT(seen(camera, nearer, kWide, bounds).z, depth);
                }
                // The bench: five times as far as the bounds reach.
                const glm::dvec3 away = -5 * bounds.radius_mm * picture_axes(camera).towards;
                EXPECT_LT(seen(camera, bounds.middle_mm + away, kWide, bounds).z, 1.0);
            }
        }
    }
}

TEST(CameraClip, OrthographicShowsWhatStandsBehindTheEye) {
    Camera camera = turned_to(oblique(Projection::perspective), NamedView::front);
    camera.target_mm = kSquat.middle_mm;
    camera.distance_mm = 1.0;
    for (const glm::dvec3& point : rim(kSquat)) EXPECT_LT(std::abs(seen(camera, point, kWide).z), 1.0);
}

TEST(CameraFit, FillsThePictureButForTheMarginAndCentres) {
    for (const Projection projection : {Projection::perspective, Projection::orthographic}) {
        for (const Bounds& bounds : {kSquat, kTall}) {
            for (const double aspect : {kWide, kUpright}) {
                for (const double margin : {0.06, 0.3}) {
                    for (const NamedView view : kAllViews) {
                        Camera camera = turned_to(oblique(projection), view);
                        camera.projection = projection;
                        const Camera fit = fitted(camera, bounds, aspect, margin);
                        const Extent shown = extent(fit, aspect, bounds);
                        SCOPED_TRACE(std::string(kNamedViews[static_cast<std::size_t>(view)]) + ", aspect " +
                                     std::to_string(aspect) + (projection == Projection::perspective ? " p" : " o"));
                        const double widest = std::max(shown.most.x, shown.most.y);
                        // Samples 0.1 degrees apart miss the extreme by less than 1 - cos(0.05 degrees) = 4e-7.
                        EXPECT_NEAR(widest, 1 - margin, 2e-6);
                        EXPECT_NEAR(shown.most.x, -shown.least.x, 2e-6);
                        EXPECT_NEAR(shown.most.y, -shown.least.y, 2e-6);
                        EXPECT_EQ(fit.azimuth_rad, camera.azimuth_rad);
                        EXPECT_EQ(fit.elevation_rad, camera.elevation_rad);
                        EXPECT_EQ(fit.view_angle_rad, camera.view_angle_rad);
                        EXPECT_EQ(fit.projection, camera.projection);
                    }
                }
            }
        }
    }
}

TEST(CameraFit, HoldsAtAnyDirectionAndViewAngle) {
    for (int up = -6; up <= 6; ++up) {
        for (const double view_angle : {0.01, 0.5, 1.5, 2.5}) {
            Camera camera = oblique(Projection::perspective);
            camera.elevation_rad = 0.25 * up;
            camera.view_angle_rad = view_angle;
            for (const double aspect : {kWide, kUpright}) {
                const Extent shown = extent(fitted(camera, kTall, aspect), aspect, kTall);
                EXPECT_NEAR(std::max(shown.most.x, shown.most.y), 0.94, 1e-5) << up << " " << view_angle;
                EXPECT_NEAR(shown.most.y, -shown.least.y, 1e-5) << up << " " << view_angle;
            }
        }
    }
}

TEST(CameraFit, OfBoundsWithoutSizeIsStillACamera) {
    const Camera fit = fitted(oblique(Projection::perspective), Bounds{{1, 2, 3}, 0.0, 0.0}, kWide);
    EXPECT_GT(fit.distance_mm, 0.0);
    expect_near(fit.target_mm, {1, 2, 3}, 1e-9);
}

TEST(CameraOrbit, AddsAnglesAndStopsAtThePoles) {
    const Camera camera = oblique(Projection::perspective);
    const Camera turned = orbited(camera, 0.3, -0.2);
    EXPECT_NEAR(turned.azimuth_rad, 1.0, 1e-15);
    EXPECT_NEAR(turned.elevation_rad, 0.2, 1e-15);
    EXPECT_EQ(turned.target_mm, camera.target_mm);
    EXPECT_EQ(orbited(camera, 0.0, 9.0).elevation_rad, kPi / 2);
    EXPECT_EQ(orbited(camera, 0.0, -9.0).elevation_rad, -kPi / 2);
    expect_near(eye_mm(orbited(camera, 2000 * kPi, 0.0)), eye_mm(camera), 1e-9, "a thousand turns");
    EXPECT_LE(std::abs(orbited(camera, 2000 * kPi, 0.0).azimuth_rad), kPi);
}

TEST(CameraPan, BringsThePointUnderTheHandAlong) {
    for (const Projection projection : {Projection::perspective, Projection::orthographic}) {
        const Camera camera = oblique(projection);
        const glm::dvec2 from(0.3, -0.6);
        const glm::dvec2 to(-0.5, 0.9);
        const Ray ray = ray_under(camera, from, kWide);
        const glm::dvec3 towards = picture_axes(camera).towards;
        const double length = glm::dot(camera.target_mm - ray.from_mm, towards) / glm::dot(ray.direction, towards);
        const glm::dvec3 held = ray.from_mm + length * ray.direction;
        const Camera moved = panned(camera, from, to, kWide);
        const glm::dvec3 now = seen(moved, held, kWide);
        EXPECT_NEAR(now.x, to.x, 1e-12);
        EXPECT_NEAR(now.y, to.y, 1e-12);
        EXPECT_EQ(moved.distance_mm, camera.distance_mm);
        EXPECT_NEAR(glm::dot(moved.target_mm - camera.target_mm, towards), 0.0, 1e-12) << "within the target's plane";
    }
}

TEST(CameraZoom, KeepsThePointUnderTheCursor) {
    for (const Projection projection : {Projection::perspective, Projection::orthographic}) {
        for (const glm::dvec2 cursor : {glm::dvec2(0.7, -0.4), glm::dvec2(0.0), glm::dvec2(-1.0, 1.0)}) {
            for (const double factor : {0.1, 0.9, 1.25, 40.0}) {
                const Camera camera = oblique(projection);
                const Ray before = ray_under(camera, cursor, kUpright);
                const glm::dvec3 towards = picture_axes(camera).towards;
                const double length =
                    glm::dot(camera.target_mm - before.from_mm, towards) / glm::dot(before.direction, towards);
                const glm::dvec3 kept = before.from_mm + length * before.direction;
                const Camera zoomed = zoomed_at(camera, cursor, factor, kUpright);
                EXPECT_LE(distance_to_line(ray_under(zoomed, cursor, kUpright), kept), 1e-9);
                const glm::dvec3 now = seen(zoomed, kept, kUpright);
                EXPECT_NEAR(now.x, cursor.x, 1e-10);
                EXPECT_NEAR(now.y, cursor.y, 1e-10);
                EXPECT_NEAR(height_at_target_mm(zoomed) * factor, height_at_target_mm(camera), 1e-9);
            }
        }
    }
}

TEST(CameraZoom, NeverReachesTheTargetNorTheEndOfNumbers) {
    Camera near = oblique(Projection::perspective);
    Camera far = near;
    for (int i = 0; i < 10000; ++i) {
        near = zoomed_at(near, {0.5, 0.5}, 1.2, kWide);
        far = zoomed_at(far, {0.5, 0.5}, 1 / 1.2, kWide);
    }
    EXPECT_GT(near.distance_mm, 0.0);
    EXPECT_TRUE(std::isfinite(far.distance_mm));
    EXPECT_TRUE(std::isfinite(glm::length(far.target_mm)));
    EXPECT_GT(zoomed_at(near, {0.0, 0.0}, 0.5, kWide).distance_mm, near.distance_mm) << "and comes back";
}

TEST(CameraRay, PassesThroughEveryPointThatIsSeenThere) {
    for (const Projection projection : {Projection::perspective, Projection::orthographic}) {
        const Camera camera = oblique(projection);
        for (const glm::dvec3& point : rim(kSquat)) {
            const glm::dvec2 cursor(seen(camera, point, kWide));
            const Ray ray = ray_under(camera, cursor, kWide);
            ASSERT_LE(distance_to_line(ray, point), 1e-8);
            ASSERT_NEAR(glm::length(ray.direction), 1.0, 1e-14);
            ASSERT_GT(glm::dot(point - ray.from_mm, ray.direction), 0.0);
        }
    }
}

TEST(CameraRay, OfAnOrthographicPictureStartsBehindAllThatItShows) {
    Camera camera = oblique(Projection::orthographic);
    camera.distance_mm = 1.0;  // the eye is within the bounds
    for (const glm::dvec3& point : rim(kSquat)) {
        const Ray ray = ray_under(camera, glm::dvec2(seen(camera, point, kWide)), kWide);
        ASSERT_GT(glm::dot(point - ray.from_mm, ray.direction), 0.0);
    }
}

// The farthest that any rim point moves in the picture between two cameras, in pictures of half height 1.
double motion(const Camera& from, const Camera& to, const Bounds& bounds) {
    double farthest = 0.0;
    for (const glm::dvec3& point : rim(bounds, 36)) {
        const glm::dvec2 a(seen(from, point, kWide, bounds));
        const glm::dvec2 b(seen(to, point, kWide, bounds));
        farthest = std::max({farthest, std::abs(a.x - b.x) * kWide, std::abs(a.y - b.y)});
    }
    return farthest;
}

double largest_step(const Camera& from, const Camera& to, int steps) {
    double most = 0.0;
    for (int i = 0; i < steps; ++i) {
        const Camera earlier = between(from, to, static_cast<double>(i) / steps);
        most = std::max(most, motion(earlier, between(from, to, (i + 1.0) / steps), kSquat));
    }
    return most;
}

bool same(const Camera& a, const Camera& b) {
    return a.target_mm == b.target_mm && a.distance_mm == b.distance_mm && a.azimuth_rad == b.azimuth_rad &&
           a.elevation_rad == b.elevation_rad && a.view_angle_rad == b.view_angle_rad && a.projection == b.projection;
}

TEST(CameraBetween, StartsAndEndsAtTheTwoCameras) {
    const Camera from = fitted(oblique(Projection::perspective), kSquat, kWide);
    const Camera to = fitted(turned_to(from, NamedView::top), kSquat, kWide);
    for (const double part : {-1.0, 0.0}) EXPECT_TRUE(same(between(from, to, part), from));
    for (const double part : {1.0, 2.0}) EXPECT_TRUE(same(between(from, to, part), to));
}

TEST(CameraBetween, NeverJumpsWhateverTheProjections) {
    const Camera start = fitted(oblique(Projection::perspective), kSquat, kWide);
    for (const NamedView first : kAllViews) {
        for (const NamedView second : kAllViews) {
            const Camera from = fitted(turned_to(start, first), kSquat, kWide);
            const Camera to = fitted(turned_to(start, second), kSquat, kWide);
            const double coarse = largest_step(from, to, 60);
            // Half a turn, eased (1.5 times as fast in the middle), moves a rim point by pi 1.5 / 60 of its radius; the
            // radius is at most 16/9 in a picture 2 high, and half a turn from pole to pole comes on top.
            EXPECT_LT(coarse, 0.3) << kNamedViews[static_cast<std::size_t>(first)] << " to "
                                   << kNamedViews[static_cast<std::size_t>(second)];
            EXPECT_LT(largest_step(from, to, 600), 0.11 * coarse + 1e-3) << "a tenth of the part, a tenth of the way";
        }
    }
}

TEST(CameraBetween, ChangesTheProjectionWithoutAJumpAtEitherEnd) {
    const Camera perspective = fitted(oblique(Projection::perspective), kSquat, kWide);
    Camera orthographic = perspective;
    orthographic.projection = Projection::orthographic;
    ASSERT_GT(motion(perspective, orthographic, kSquat), 0.02) << "the two differ by a lot";
    for (const bool to_orthographic : {true, false}) {
        const Camera& from = to_orthographic ? perspective : orthographic;
        const Camera& to = to_orthographic ? orthographic : perspective;
        // In a picture of 1080 pixels a change of 1/540 is a pixel.
        EXPECT_LT(motion(from, between(from, to, 1e-6), kSquat) * 540, 0.2);
        EXPECT_LT(motion(between(from, to, 1 - 1e-6), to, kSquat) * 540, 0.2);
        EXPECT_LT(largest_step(from, to, 60), 2.5 / 60 * motion(from, to, kSquat)) << "even steps, but for the ease";
    }
}

TEST(CameraBetween, GoesTheShorterWayRound) {
    Camera from = oblique(Projection::perspective);
    Camera to = from;
    from.azimuth_rad = 3.0;
    to.azimuth_rad = -3.0;
    const double middle = between(from, to, 0.5).azimuth_rad;
    EXPECT_NEAR(std::cos(middle), -1.0, 1e-12) << "through the back, not through the front";
    to.azimuth_rad = 3.0 + 40 * kPi;
    EXPECT_NEAR(std::remainder(between(from, to, 0.5).azimuth_rad - 3.0, 2 * kPi), 0.0, 1e-12);
}

TEST(CameraBetween, EasesAtBothEnds) {
    Camera from = oblique(Projection::perspective);
    Camera to = from;
    to.azimuth_rad += 1.0;
    EXPECT_LT(between(from, to, 0.01).azimuth_rad - from.azimuth_rad, 0.001);
    EXPECT_LT(to.azimuth_rad - between(from, to, 0.99).azimuth_rad, 0.001);
    EXPECT_NEAR(between(from, to, 0.5).azimuth_rad, from.azimuth_rad + 0.5, 1e-12);
    for (int i = 0; i < 100; ++i)
        EXPECT_LT(between(from, to, i / 100.0).azimuth_rad, between(from, to, (i + 1) / 100.0).azimuth_rad);
}

TEST(CameraBetween, KeepsThePointThatAZoomKept) {
    const Camera from = oblique(Projection::orthographic);
    const glm::dvec2 cursor(0.6, -0.5);
    const Camera to = zoomed_at(from, cursor, 30.0, kWide);
    const Ray ray = ray_under(from, cursor, kWide);
    for (int i = 0; i <= 20; ++i)
        EXPECT_LE(distance_to_line(ray_under(between(from, to, i / 20.0), cursor, kWide), ray.from_mm), 1e-6);
}

}  // namespace
}  // namespace couplet
