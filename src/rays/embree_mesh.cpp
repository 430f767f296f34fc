#include "rays/embree_mesh.h"

#include "rays/day_frames.h"
#include "sunfleck/base/require.h"

#include <embree3/rtcore.h>

#include <cstddef>
#include <limits>
#include <type_traits>

namespace sunfleck::rays {
namespace {

constexpr float least_distance_m = 1e-6F;

struct ReleaseDevice {
    void operator()(RTCDevice device) const { rtcReleaseDevice(device); }
};
struct ReleaseScene {
    void operator()(RTCScene scene) const { rtcReleaseScene(scene); }
};

Vec3 middle_of(const std::vector<geometry::Triangle>& facets) {
    Vec3 sum;
    for (const geometry::Triangle& t : facets) sum = sum + t.a + t.b + t.c;
    return facets.empty() ? sum : (1.0 / (3.0 * static_cast<double>(facets.size()))) * sum;
}

}  // namespace

struct EmbreeMesh::Tree {
    // Of threads Embree must be told nothing: a number holds all of TBB to it, so that one mesh in
    // a garden would leave every spot to one thread.
    std::unique_ptr<std::remove_pointer_t<RTCDevice>, ReleaseDevice> device{
        rtcNewDevice("set_affinity=0")};
    std::unique_ptr<std::remove_pointer_t<RTCScene>, ReleaseScene> scene;
    Vec3 middle;
};

EmbreeMesh::EmbreeMesh(const geometry::MeshBody& mesh) : tree_(std::make_unique<Tree>()) {
    SUNFLECK_REQUIRE(tree_->device != nullptr, "Embree gives a device");
    tree_->middle = middle_of(mesh.facets);
    tree_->scene.reset(rtcNewScene(tree_->device.get()));
    rtcSetSceneFlags(tree_->scene.get(), RTC_SCENE_FLAG_ROBUST);
    RTCGeometry geometry = rtcNewGeometry(tree_->device.get(), RTC_GEOMETRY_TYPE_TRIANGLE);
    const std::size_t count = 3 * mesh.facets.size();
    auto* points = static_cast<float*>(rtcSetNewGeometryBuffer(
        geometry, RTC_BUFFER_TYPE_VERTEX, 0, RTC_FORMAT_FLOAT3, 3 * sizeof(float), count));
    auto* indices = static_cast<unsigned*>(rtcSetNewGeometryBuffer(
        geometry, RTC_BUFFER_TYPE_INDEX, 0, RTC_FORMAT_UINT3, 3 * sizeof(unsigned), count / 3));
    std::size_t i = 0;
    for (const geometry::Triangle& facet : mesh.facets) {
        for (const Vec3& corner : {facet.a, facet.b, facet.c}) {
            const Vec3 place = corner - tree_->middle;
            points[3 * i] = static_cast<float>(place.x);
            points[3 * i + 1] = static_cast<float>(place.y);
            points[3 * i + 2] = static_cast<float>(place.z);
            indices[i] = static_cast<unsigned>(i);
            ++i;
        }
    }
    rtcCommitGeometry(geometry);
    rtcAttachGeometry(tree_->scene.get(), geometry);
    rtcReleaseGeometry(geometry);
    rtcCommitScene(tree_->scene.get());
}

EmbreeMesh::~EmbreeMesh() = default;
EmbreeMesh::EmbreeMesh(EmbreeMesh&&) noexcept = default;
EmbreeMesh& EmbreeMesh::operator=(EmbreeMesh&&) noexcept = default;

unsigned EmbreeMesh::blocked(Vec3 origin, const float* directions, int count) const {
    RTCIntersectContext context;
    rtcInitIntersectContext(&context);
    context.flags = RTC_INTERSECT_CONTEXT_FLAG_COHERENT;
    const Vec3 place = origin - tree_->middle;
    alignas(64) int valid[16];
    RTCRay16 rays{};
    for (int i = 0; i < 16; ++i) {
        valid[i] = i < count ? -1 : 0;
        const float* direction =
            directions + row_floats * static_cast<std::ptrdiff_t>(i < count ? i : 0);
        rays.org_x[i] = static_cast<float>(place.x);
        rays.org_y[i] = static_cast<float>(place.y);
        rays.org_z[i] = static_cast<float>(place.z);
        rays.dir_x[i] = direction[0];
        rays.dir_y[i] = direction[1];
        rays.dir_z[i] = direction[2];
        rays.tnear[i] = least_distance_m;
        rays.tfar[i] = std::numeric_limits<float>::infinity();
        rays.mask[i] = 0xffffffffU;
    }
    rtcOccluded16(valid, tree_->scene.get(), &context, &rays);
    unsigned blocked = 0;
    for (int i = 0; i < count; ++i) {
        if (rays.tfar[i] < 0.0F) blocked |= 1U << i;
    }
    return blocked;
}

}  // namespace sunfleck::rays
