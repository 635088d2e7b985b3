#include "record/camera_path.hpp"

#include <cmath>
#include <numbers>

#include "view/shown_scene.hpp"

namespace couplet {
namespace {

constexpr double kTurn = 2 * std::numbers::pi;

Camera some_camera() {
    Camera camera;
    camera.target_mm = {10.0, -20.0, 30.0};
    camera.distance_mm = 321.0;
    camera.azimuth_rad = -0.7;
    camera.elevation_rad = 0.5;
    return camera;
}

std::vector<KeyedView> some_views() {
    Camera above = some_camera();
    above.azimuth_rad = 2.5;
    above.elevation_rad = 1.2;
    above.distance_mm = 100.0;
    Camera flat = turned_to(above, NamedView::front);
    flat.target_mm = {0.0, 0.0, 5.0};
    return {{0.125, some_camera()}, {0.3, above}, {Ratio(2, 3).to_double(), flat}};
}

double distance_between(const Camera& a, const Camera& b) {
    return glm::length(eye_mm(a) - eye_mm(b)) + glm::length(a.target_mm - b.target_mm);
}

TEST(CameraPath, EndsWhereItBeganToTheLastBit) {
    for (const PathKind kind : {PathKind::turntable, PathKind::fixed, PathKind::rocking, PathKind::shots}) {
        const CameraPath path{kind, some_camera(), some_views()};
        EXPECT_EQ(camera_at(path, 1), camera_at(path, 0)) << static_cast<int>(kind);
    }
}

TEST(CameraPath, ComesBackWithoutAJump) {
    for (const PathKind kind : {PathKind::turntable, PathKind::rocking, PathKind::shots}) {
        const CameraPath path{kind, some_camera(), some_views()};
        const Ratio little(1, 1'000'000);
        EXPECT_LT(distance_between(camera_at(path, Ratio(1) - little), camera_at(path, 0)), 0.02)
            << static_cast<int>(kind);
    }
}

TEST(CameraPath, StandsWhereItIsFixed) {
    const CameraPath path{PathKind::fixed, some_camera(), {}};
    for (int k = 0; k < 7; ++k) EXPECT_EQ(camera_at(path, Ratio(k, 7)), some_camera());
}

TEST(CameraPath, GoesOnceRoundAsATurntable) {
    const CameraPath path{PathKind::turntable, some_camera(), {}};
    for (int k = 0; k < 36; ++k) {
        const Camera camera = camera_at(path, Ratio(k, 36));
        EXPECT_NEAR(camera.azimuth_rad, some_camera().azimuth_rad + k * kTurn / 36, 1e-12);
        Camera back = camera;
        back.azimuth_rad = some_camera().azimuth_rad;
        EXPECT_EQ(back, some_camera()) << "distance, height and all else stay";
    }
}

TEST(CameraPath, RocksToBothSidesAndNoFurther) {
    const CameraPath path{PathKind::rocking, some_camera(), {}};
    double least = 0.0;
    double most = 0.0;
    for (int k = 0; k < 100; ++k) {
        const double to_deg = (camera_at(path, Ratio(k, 100)).azimuth_rad - some_camera().azimuth_rad) * 360 / kTurn;
        least = std::min(least, to_deg);
        most = std::max(most, to_deg);
    }
    EXPECT_NEAR(most, kRock_deg, 1e-9) << "at a quarter";
    EXPECT_NEAR(least, -kRock_deg, 1e-9) << "at three quarters";
}

TEST(CameraPath, PassesThroughEachShotAtItsPart) {
    const CameraPath path{PathKind::shots, {}, some_views()};
    EXPECT_EQ(camera_at(path, Ratio(1, 8)), some_views()[0].camera);
    EXPECT_EQ(camera_at(path, Ratio(3, 10)), some_views()[1].camera);
    EXPECT_EQ(camera_at(path, Ratio(2, 3)), some_views()[2].camera);
}

TEST(CameraPath, IsAsFarBetweenTwoShotsAsTheirPartsSay) {
    const std::vector<KeyedView> views = some_views();
    const CameraPath path{PathKind::shots, {}, views};
    // From 0.125 to 0.3, at 2/5 of that.
    EXPECT_LT(distance_between(camera_at(path, Ratio(195, 1000)), between(views[0].camera, views[1].camera, 0.4)),
              1e-9);
    // From 2/3 over the seam to 1 + 1/8: 11/24 long. The seam itself is 8/11 of it; 5/6 is 4/11.
    EXPECT_LT(distance_between(camera_at(path, 0), between(views[2].camera, views[0].camera, 8.0 / 11)), 1e-6);
    EXPECT_LT(distance_between(camera_at(path, Ratio(5, 6)), between(views[2].camera, views[0].camera, 4.0 / 11)),
              1e-6);
}

TEST(CameraPath, TakesShotsAtBothEndsAndSingleOnes) {
    const std::vector<KeyedView> some = some_views();
    const CameraPath at_the_ends{PathKind::shots, {}, {{0.0, some[0].camera}, {1.0, some[1].camera}}};
    EXPECT_EQ(camera_at(at_the_ends, 0), some[0].camera);
    EXPECT_EQ(camera_at(at_the_ends, 1), some[0].camera);
    const CameraPath only_one{PathKind::shots, {}, {{0.4, some[1].camera}}};
    for (const Ratio& part : {Ratio(0), Ratio(1, 5), Ratio(2, 5), Ratio(9, 10)})
        EXPECT_LT(distance_between(camera_at(only_one, part), some[1].camera), 1e-9);
    EXPECT_EQ(camera_at({PathKind::shots, some_camera(), {}}, Ratio(1, 3)), some_camera());
}

// x and y from -1 to 1 where it is in the picture.
glm::dvec2 seen_at(const Camera& camera, double width_over_height, const glm::dvec3& point_mm) {
    const glm::dvec4 clip = clip_from_view(camera, width_over_height, {point_mm, 1.0, 1.0}) *
                            view_from_observer(camera) * glm::dvec4(point_mm, 1.0);
    return glm::dvec2(clip) / clip.w;
}

// How far out the rims of all reaches are seen, at most.
double farthest_out(const Camera& camera, double width_over_height, const std::vector<Bounds>& reaches) {
    double farthest = 0.0;
    for (const Bounds& reach : reaches)
        for (int i = 0; i < 24; ++i)
            for (const double side : {-1.0, 1.0}) {
                const glm::dvec3 point = reach.middle_mm + glm::dvec3(reach.radius_mm * std::cos(i * kTurn / 24),
                                                                      reach.radius_mm * std::sin(i * kTurn / 24),
                                                                      side * reach.half_height_mm);
                const glm::dvec2 at = seen_at(camera, width_over_height, point);
                farthest = std::max({farthest, std::abs(at.x), std::abs(at.y)});
            }
    return farthest;
}

struct Watched {
    const char* scene;
    const char* observer;  // none: the frame
};

TEST(FittedAllRound, HoldsTheMachineFromEverySide) {
    for (const Watched& watched : {Watched{"harbour_capstan", nullptr},
                                   {"tide_dial", nullptr},
                                   {"signal_arm", nullptr},
                                   {"slipway_gearbox", nullptr},
                                   {"harbour_capstan", "planet"}}) {
        const ShownScene scene = shown_scene(watched.scene);
        StageLook look;
        if (watched.observer != nullptr) look.observer = scene.member(watched.observer);
        const std::vector<Bounds> reaches = reaches_of(scene.stage, look);
        const glm::dvec3 middle = enclosing(reaches).middle_mm;
        for (const double width_over_height : {16.0 / 9, 1.0, 9.0 / 16})
            for (const double elevation : {0.0, 0.6, 1.4})
                for (const Projection projection : {Projection::perspective, Projection::orthographic}) {
                    Camera camera = some_camera();
                    camera.elevation_rad = elevation;
                    camera.projection = projection;
                    const CameraPath path{
                        PathKind::turntable, fitted_all_round(camera, scene.stage, look, width_over_height), {}};
                    const glm::dvec2 first = seen_at(path.camera, width_over_height, middle);
                    double farthest = 0.0;
                    for (int k = 0; k < 36; ++k) {
                        const Camera from_there = camera_at(path, Ratio(k, 36));
                        const glm::dvec2 at = seen_at(from_there, width_over_height, middle);
                        // Turning round anything but the upright through the middle would move it.
                        EXPECT_LT(glm::length(at - first), 1e-9) << watched.scene << ", side " << k;
                        farthest = std::max(farthest, farthest_out(from_there, width_over_height, reaches));
                    }
                    EXPECT_LE(farthest, 1.0) << watched.scene << " " << width_over_height << " " << elevation;
                    EXPECT_GE(farthest, 0.6) << watched.scene << " is not lost in the picture";
                }
    }
}

TEST(FittedAllRound, TakesAViewFromAbove) {
    const ShownScene scene = shown_scene("tide_dial");
    const Camera camera = fitted_all_round(turned_to(Camera{}, NamedView::top), scene.stage, {}, 1.5);
    const std::vector<Bounds> reaches = reaches_of(scene.stage, {});
    for (int k = 0; k < 36; ++k)
        EXPECT_LE(farthest_out(camera_at({PathKind::turntable, camera, {}}, Ratio(k, 36)), 1.5, reaches), 1.0);
}

// Only what the path turns round is another point of the gaze: the view is that of the whole cylinder, fitted.
TEST(FittedAllRound, LooksFromWhereTheWholeIsFitted) {
    const ShownScene scene = shown_scene("harbour_capstan");
    for (const Projection projection : {Projection::perspective, Projection::orthographic}) {
        Camera camera = some_camera();
        camera.projection = projection;
        const Camera fit = fitted(camera, enclosing(reaches_of(scene.stage, {})), 16.0 / 9);
        const Camera all_round = fitted_all_round(camera, scene.stage, {}, 16.0 / 9);
        const bool is_perspective = projection == Projection::perspective;
        EXPECT_EQ(glm::length(all_round.target_mm - fit.target_mm) > 1.0, is_perspective);
        for (const glm::dvec3 point : {glm::dvec3(0.0), {50.0, 0.0, 10.0}, {-20.0, 60.0, 30.0}})
            EXPECT_LT(glm::length(seen_at(all_round, 16.0 / 9, point) - seen_at(fit, 16.0 / 9, point)), 1e-9);
    }
}

TEST(FittedAllRound, KeepsTheDirectionOfTheView) {
    const ShownScene scene = shown_scene("signal_arm");
    const Camera camera = fitted_all_round(some_camera(), scene.stage, {}, 1.5);
    EXPECT_EQ(camera.azimuth_rad, some_camera().azimuth_rad);
    EXPECT_EQ(camera.elevation_rad, some_camera().elevation_rad);
    EXPECT_EQ(camera.view_angle_rad, some_camera().view_angle_rad);
}

}  // namespace
}  // namespace couplet
