// All-hit casting: the filter lets every ray go on through nets and crowns and writes down what it
// met. With the coherent flag Embree may call it twice for one triangle, so what it writes must not
// add up: a net is a bit, and of a crown (convex) only where the ray goes in and where it comes
// out. For the same reason the build quality is not HIGH, whose splits may repeat triangles.
#include "ray_caster.h"

#include <embree3/rtcore.h>

#include <algorithm>
#include <array>
#include <atomic>
#include <cmath>
#include <cstdint>
#include <limits>
#include <stdexcept>
#include <type_traits>
#include <vector>

namespace sunfleck::bench {
namespace {

constexpr std::size_t packet = 16;
constexpr std::size_t most_bodies = 32;  // of each kind, a bit each

struct ReleaseDevice {
    void operator()(RTCDevice device) const { rtcReleaseDevice(device); }
};
struct ReleaseScene {
    void operator()(RTCScene scene) const { rtcReleaseScene(scene); }
};
using Device = std::unique_ptr<std::remove_pointer_t<RTCDevice>, ReleaseDevice>;
using Scene = std::unique_ptr<std::remove_pointer_t<RTCScene>, ReleaseScene>;

/// What one ray met that light goes through.
struct Met {
    std::uint32_t nets = 0;
    std::uint32_t crowns = 0;
    std::array<float, most_bodies> in;
    std::array<float, most_bodies> out;
};

/// Embree hands the filter its context; ours begins with Embree's own.
struct Context {
    RTCIntersectContext embree;
    std::array<Met, packet> met;
};

/// The transparent bodies' triangles: body number of each primitive.
using BodyOfTriangle = std::vector<std::uint8_t>;

Met& met_of(const RTCFilterFunctionNArguments* args, unsigned lane) {
    auto* context = reinterpret_cast<Context*>(args->context);
    return context->met[RTCRayN_id(args->ray, args->N, lane)];
}

void let_through_net(const RTCFilterFunctionNArguments* args) {
    const auto& body = *static_cast<const BodyOfTriangle*>(args->geometryUserPtr);
    for (unsigned lane = 0; lane < args->N; ++lane) {
        if (args->valid[lane] == 0) continue;
        args->valid[lane] = 0;
        const unsigned net = body[RTCHitN_primID(args->hit, args->N, lane)];
        met_of(args, lane).nets |= 1U << net;
    }
}

void let_through_crown(const RTCFilterFunctionNArguments* args) {
    const auto& body = *static_cast<const BodyOfTriangle*>(args->geometryUserPtr);
    for (unsigned lane = 0; lane < args->N; ++lane) {
        if (args->valid[lane] == 0) continue;
        args->valid[lane] = 0;
        Met& met = met_of(args, lane);
        const unsigned crown = body[RTCHitN_primID(args->hit, args->N, lane)];
        if ((met.crowns & (1U << crown)) == 0) {
            met.crowns |= 1U << crown;
            met.in[crown] = 0.0F;
            met.out[crown] = 0.0F;
        }
        const float facing =
            RTCHitN_Ng_x(args->hit, args->N, lane) * RTCRayN_dir_x(args->ray, args->N, lane) +
            RTCHitN_Ng_y(args->hit, args->N, lane) * RTCRayN_dir_y(args->ray, args->N, lane) +
            RTCHitN_Ng_z(args->hit, args->N, lane) * RTCRayN_dir_z(args->ray, args->N, lane);
        const float at = RTCRayN_tfar(args->ray, args->N, lane);
        (facing < 0.0F ? met.in : met.out)[crown] = at;
    }
}

bool add_bytes(void* total, ssize_t bytes, bool /*post*/) {
    static_cast<std::atomic<std::int64_t>*>(total)->fetch_add(bytes);
    return true;
}

class EmbreeCaster : public RayCaster {
  public:
    EmbreeCaster(const MeshGarden& mesh, bool all_hit) : device_(rtcNewDevice(nullptr)) {
        rtcSetDeviceMemoryMonitorFunction(device_.get(), add_bytes, &bytes_);
        scene_.reset(rtcNewScene(device_.get()));
        rtcSetSceneBuildQuality(scene_.get(), RTC_BUILD_QUALITY_MEDIUM);
        attach(mesh.opaque, nullptr, nullptr);
        if (all_hit) attach_transparent(mesh);
        rtcCommitScene(scene_.get());
        if (rtcGetDeviceError(device_.get()) != RTC_ERROR_NONE) {
            throw std::runtime_error("Embree could not build its scene");
        }
    }

    [[nodiscard]] std::size_t bytes() const override {
        return static_cast<std::size_t>(bytes_.load());
    }

  protected:
    [[nodiscard]] RTCScene scene() const { return scene_.get(); }

    [[nodiscard]] float share_of(const Met& met) const {
        float share = 1.0F;
        float depth = 0.0F;
        for (std::size_t i = 0; i < net_shares_.size(); ++i) {
            if ((met.nets >> i & 1U) != 0) share *= net_shares_[i];
        }
        for (std::uint32_t left = met.crowns; left != 0; left &= left - 1) {
            const auto crown = static_cast<std::size_t>(__builtin_ctz(left));
            depth += crown_k_[crown] * std::max(0.0F, met.out[crown] - met.in[crown]);
        }
        return depth > 0.0F ? share * std::exp(-depth) : share;
    }

  private:
    void attach_transparent(const MeshGarden& mesh) {
        if (mesh.nets.size() > most_bodies || mesh.crowns.size() > most_bodies) {
            throw std::length_error("too many nets or crowns for the filter's bits");
        }
        std::vector<geometry::Triangle> facets;
        for (const MeshGarden::Net& net : mesh.nets) {
            facets.insert(facets.end(), net.facets.begin(), net.facets.end());
            net_of_.resize(facets.size(), static_cast<std::uint8_t>(net_shares_.size()));
            net_shares_.push_back(static_cast<float>(net.transmittance));
        }
        attach(facets, let_through_net, &net_of_);
        facets.clear();
        for (const MeshGarden::Crown& crown : mesh.crowns) {
            facets.insert(facets.end(), crown.facets.begin(), crown.facets.end());
            crown_of_.resize(facets.size(), static_cast<std::uint8_t>(crown_k_.size()));
            crown_k_.push_back(static_cast<float>(crown.k_per_m));
        }
        attach(facets, let_through_crown, &crown_of_);
    }

    void attach(const std::vector<geometry::Triangle>& facets, RTCFilterFunctionN filter,
                BodyOfTriangle* bodies) {
        if (facets.empty()) return;
        RTCGeometry mesh = rtcNewGeometry(device_.get(), RTC_GEOMETRY_TYPE_TRIANGLE);
        auto* points = static_cast<float*>(
            rtcSetNewGeometryBuffer(mesh, RTC_BUFFER_TYPE_VERTEX, 0, RTC_FORMAT_FLOAT3,
                                    3 * sizeof(float), 3 * facets.size()));
        auto* indices = static_cast<unsigned*>(rtcSetNewGeometryBuffer(
            mesh, RTC_BUFFER_TYPE_INDEX, 0, RTC_FORMAT_UINT3, 3 * sizeof(unsigned), facets.size()));
        for (const geometry::Triangle& t : facets) {
            for (const Vec3& p : {t.a, t.b, t.c}) {
                *points++ = static_cast<float>(p.x);
                *points++ = static_cast<float>(p.y);
                *points++ = static_cast<float>(p.z);
            }
        }
        for (unsigned i = 0; i < 3 * facets.size(); ++i) indices[i] = i;
        rtcSetGeometryUserData(mesh, bodies);
        if (filter != nullptr) rtcSetGeometryOccludedFilterFunction(mesh, filter);
        rtcCommitGeometry(mesh);
        rtcAttachGeometry(scene_.get(), mesh);
        rtcReleaseGeometry(mesh);
    }

    std::atomic<std::int64_t> bytes_{0};
    Device device_;
    Scene scene_;
    BodyOfTriangle net_of_;
    BodyOfTriangle crown_of_;
    std::vector<float> net_shares_;
    std::vector<float> crown_k_;
};

template <bool all_hit>
class SingleRays final : public EmbreeCaster {
  public:
    explicit SingleRays(const MeshGarden& mesh) : EmbreeCaster(mesh, all_hit) {}

    void cast(const SunRays& rays, std::size_t from, Vec3 spot,
              std::span<float> shares) const override {
        Context context;
        rtcInitIntersectContext(&context.embree);
        context.embree.flags = RTC_INTERSECT_CONTEXT_FLAG_COHERENT;
        Met& met = context.met[0];
        for (std::size_t i = 0; i < shares.size(); ++i) {
            RTCRay ray{};
            ray.org_x = static_cast<float>(spot.x);
            ray.org_y = static_cast<float>(spot.y);
            ray.org_z = static_cast<float>(spot.z);
            ray.dir_x = rays.x[from + i];
            ray.dir_y = rays.y[from + i];
            ray.dir_z = rays.z[from + i];
            ray.tfar = std::numeric_limits<float>::infinity();
            ray.mask = 0xffffffffU;
            if constexpr (all_hit) met.nets = met.crowns = 0;
            rtcOccluded1(scene(), &context.embree, &ray);
            shares[i] = ray.tfar < 0.0F ? 0.0F : 1.0F;
            if constexpr (all_hit) {
                if ((met.nets | met.crowns) != 0) shares[i] *= share_of(met);
            }
        }
    }
};

template <bool all_hit>
class Packets final : public EmbreeCaster {
  public:
    Packets(const MeshGarden& mesh, RTCIntersectContextFlags flags)
        : EmbreeCaster(mesh, all_hit), flags_(flags) {}

    void cast(const SunRays& rays, std::size_t from, Vec3 spot,
              std::span<float> shares) const override {
        Context context;
        rtcInitIntersectContext(&context.embree);
        context.embree.flags = flags_;
        for (std::size_t i = 0; i < shares.size(); i += packet) {
            cast_packet(context, rays, from + i, spot,
                        shares.subspan(i, std::min(packet, shares.size() - i)));
        }
    }

  private:
    void cast_packet(Context& context, const SunRays& rays, std::size_t from, Vec3 spot,
                     std::span<float> shares) const {
        RTCRay16 ray;
        alignas(64) std::array<int, packet> valid;
        for (std::size_t k = 0; k < packet; ++k) {
            ray.org_x[k] = static_cast<float>(spot.x);
            ray.org_y[k] = static_cast<float>(spot.y);
            ray.org_z[k] = static_cast<float>(spot.z);
            ray.dir_x[k] = rays.x[from + k];
            ray.dir_y[k] = rays.y[from + k];
            ray.dir_z[k] = rays.z[from + k];
            ray.tnear[k] = 0.0F;
            ray.time[k] = 0.0F;
            ray.tfar[k] = std::numeric_limits<float>::infinity();
            ray.mask[k] = 0xffffffffU;
            ray.id[k] = static_cast<unsigned>(k);
            ray.flags[k] = 0;
            valid[k] = k < shares.size() ? -1 : 0;
            if constexpr (all_hit) context.met[k].nets = context.met[k].crowns = 0;
        }
        rtcOccluded16(valid.data(), scene(), &context.embree, &ray);
        for (std::size_t k = 0; k < shares.size(); ++k) {
            shares[k] = ray.tfar[k] < 0.0F ? 0.0F : 1.0F;
            if constexpr (all_hit) {
                const Met& met = context.met[k];
                if ((met.nets | met.crowns) != 0) shares[k] *= share_of(met);
            }
        }
    }

    RTCIntersectContextFlags flags_;
};

}  // namespace

std::unique_ptr<RayCaster> make_embree_caster(const MeshGarden& mesh, EmbreeMode mode) {
    switch (mode) {
        case EmbreeMode::single:
            return std::make_unique<SingleRays<false>>(mesh);
        case EmbreeMode::packets:
            return std::make_unique<Packets<false>>(mesh, RTC_INTERSECT_CONTEXT_FLAG_COHERENT);
        case EmbreeMode::all_hit_single:
            return std::make_unique<SingleRays<true>>(mesh);
        case EmbreeMode::all_hit_coherent:
            return std::make_unique<Packets<true>>(mesh, RTC_INTERSECT_CONTEXT_FLAG_COHERENT);
        case EmbreeMode::all_hit_incoherent:
            break;
    }
    return std::make_unique<Packets<true>>(mesh, RTC_INTERSECT_CONTEXT_FLAG_INCOHERENT);
}

}  // namespace sunfleck::bench
