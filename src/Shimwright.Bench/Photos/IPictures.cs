namespace Shimwright.Bench.Photos;

/// <summary>Pictures: the photos of jobs, and the workshop's logo. They are added, never changed; what a photo shows is a fact of its job.</summary>
public interface IPictures
{
    /// <summary>Adds a picture.</summary>
    /// <param name="id">The picture's id, made by the caller: the same sent twice adds one.</param>
    /// <param name="job">The job that it is of; null for the workshop's.</param>
    /// <param name="picture">The picture.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>When it is kept.</returns>
    /// <exception cref="ArgumentException">There is no such job, or the picture is not one that the bench has made.</exception>
    Task AddAsync(Guid id, Guid? job, Picture picture, CancellationToken cancel = default);

    /// <summary>Finds a picture.</summary>
    /// <param name="id">The picture.</param>
    /// <param name="job">The job that it is of; null for the workshop's.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The picture, or null.</returns>
    Task<Picture?> FindAsync(Guid id, Guid? job, CancellationToken cancel = default);

    /// <summary>The pictures of a job, without their content.</summary>
    /// <param name="job">The job.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The pictures, by id.</returns>
    Task<IReadOnlyList<PictureSize>> OfJobAsync(Guid job, CancellationToken cancel = default);
}
